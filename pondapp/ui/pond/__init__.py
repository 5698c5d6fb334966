"""The first screen and a pond of one's own."""
