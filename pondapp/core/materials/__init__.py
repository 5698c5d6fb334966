"""What to buy, and how much of it."""
