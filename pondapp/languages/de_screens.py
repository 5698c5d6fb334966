"""German for the screens."""

SCREENS: dict[str, str] = {}
