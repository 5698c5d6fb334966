"""German: what the core says, and the working of its numbers."""

CORE: dict[str, str] = {}
