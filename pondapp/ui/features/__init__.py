"""Filters, lips, jets and skimmers."""
