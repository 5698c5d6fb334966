"""Water and what it flows through."""
