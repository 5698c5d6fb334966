"""The pond as a picture: what is drawn where, for a screen or a page to draw it."""
