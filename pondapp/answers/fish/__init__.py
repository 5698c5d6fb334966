"""Fish, filters and oxygen."""
