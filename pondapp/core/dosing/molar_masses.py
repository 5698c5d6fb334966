"""Masses of one mole [kg/mol], from which every mass ratio here follows.

Source: IUPAC abridged standard atomic weights (2021), five figures or fewer; from memory.
"""

HYDROGEN = 1.008e-3
CARBON = 12.011e-3
NITROGEN = 14.007e-3
OXYGEN = 15.999e-3
SODIUM = 22.990e-3
SULFUR = 32.06e-3
CHLORINE = 35.45e-3
CALCIUM = 40.078e-3

OXYGEN_GAS = 2 * OXYGEN
CHLORINE_GAS = 2 * CHLORINE
WATER = 2 * HYDROGEN + OXYGEN
CALCIUM_CARBONATE = CALCIUM + CARBON + 3 * OXYGEN
THIOSULFATE = 2 * SODIUM + 2 * SULFUR + 3 * OXYGEN
THIOSULFATE_CRYSTALS = THIOSULFATE + 5 * WATER
ASCORBIC_ACID = 6 * CARBON + 8 * HYDROGEN + 6 * OXYGEN
