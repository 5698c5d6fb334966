"""The water path and its runs of pipe."""
