"""What the readings of a pond say of its pump, hoses and valves, and what they let expect."""
