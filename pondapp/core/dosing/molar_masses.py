"""Masses of one mole [kg/mol], from which every mass ratio here follows.

Source: IUPAC standard atomic weights 2007, Pure Appl. Chem. 81 (2009) 2131. The later
abridged table rounds chlorine to 35.45, which is 1e-4 off; that would show in the ratios.
"""

HYDROGEN = 1.00794e-3
CARBON = 12.0107e-3
NITROGEN = 14.0067e-3
OXYGEN = 15.9994e-3
SODIUM = 22.98976928e-3
SULFUR = 32.065e-3
CHLORINE = 35.453e-3
CALCIUM = 40.078e-3

OXYGEN_GAS = 2 * OXYGEN
CHLORINE_GAS = 2 * CHLORINE
WATER = 2 * HYDROGEN + OXYGEN
CALCIUM_CARBONATE = CALCIUM + CARBON + 3 * OXYGEN
THIOSULFATE = 2 * SODIUM + 2 * SULFUR + 3 * OXYGEN
THIOSULFATE_CRYSTALS = THIOSULFATE + 5 * WATER
ASCORBIC_ACID = 6 * CARBON + 8 * HYDROGEN + 6 * OXYGEN
