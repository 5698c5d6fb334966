"""Calculators for the care of a pond."""
