"""How much water there is."""
