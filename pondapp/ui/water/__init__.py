"""How much water: basins drawn up, or a volume measured."""
