"""Turning valves until each branch has its flow."""
