"""From readings to a flow and a verdict."""
