"""Choosing a pump, and whether it is well."""
