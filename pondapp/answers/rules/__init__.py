"""The rules of thumb and the sources behind the numbers."""
