"""Dosing: salt, water changes, chlorine, and what evaporates."""
