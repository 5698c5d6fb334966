"""German for the core's sentences."""

CORE: dict[str, str] = {}
