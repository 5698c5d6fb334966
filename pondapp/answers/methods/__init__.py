"""Ways of measuring a flow, each described once."""
