"""Checking a waterfall."""
