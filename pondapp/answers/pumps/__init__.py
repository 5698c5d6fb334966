"""Which pump is enough, for the fewest watts; and whether it still is."""
