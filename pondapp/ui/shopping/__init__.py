"""The shopping list."""
