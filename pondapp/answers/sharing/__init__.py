"""A pond on paper, and the invented example."""
