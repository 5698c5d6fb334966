"""Measuring a flow on site."""
