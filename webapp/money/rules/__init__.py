"""Pure rules of money."""
