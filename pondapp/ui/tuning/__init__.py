"""Turning valves, branch by branch."""
