"""What the readings tell."""
