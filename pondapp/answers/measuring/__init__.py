"""From a measurement by any method to a flow and a verdict."""
