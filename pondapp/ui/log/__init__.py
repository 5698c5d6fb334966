"""The log of a pond: entries, charts, photos."""
