"""Makes, checks and serves the static site; never shipped in it."""
