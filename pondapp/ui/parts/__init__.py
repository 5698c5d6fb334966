"""Pieces that several screens use."""
