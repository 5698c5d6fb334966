"""Trying changes on a pond's picture before anything is saved, built or bought."""
