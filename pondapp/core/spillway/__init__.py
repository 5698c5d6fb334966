"""Water over a lip: how much, how thick, how wide."""
