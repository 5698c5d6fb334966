"""German: the labels and sources of the rules."""

RULES: dict[str, str] = {}
