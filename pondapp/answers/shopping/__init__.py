"""What a pond is made of, as things to buy."""
