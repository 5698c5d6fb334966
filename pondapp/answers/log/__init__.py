"""What was measured and done at a pond, over time."""
