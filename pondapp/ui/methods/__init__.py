"""How each way of measuring is shown and entered."""
