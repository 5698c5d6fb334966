"""Backups and shared plans."""
