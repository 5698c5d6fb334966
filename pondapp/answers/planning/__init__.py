"""The flow plan of a pond, and its conflicts."""
