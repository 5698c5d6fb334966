"""Fish load: what the stock puts into the water and what pond and filter can carry."""
