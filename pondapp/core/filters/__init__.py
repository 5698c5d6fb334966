"""Filters: flow bands and sizes."""
