"""The flow plan."""
