"""What if: a pond with a few things changed, beside the pond as it is saved."""
