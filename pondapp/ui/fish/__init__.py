"""Fish and what carries them."""
