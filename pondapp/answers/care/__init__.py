"""What is due and what is open about a pond."""
