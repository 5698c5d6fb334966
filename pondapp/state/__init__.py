"""What the running app holds: knows no screen and no framework."""
