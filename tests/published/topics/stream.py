"""Streams: the core has none."""

TOPIC = "14 stream"
NO_STREAM = "a stream in a channel of stones; the core has no stream yet, only lips and falls"

NOT_APPLICABLE: dict[int, str] = dict.fromkeys(range(497, 505), NO_STREAM)
