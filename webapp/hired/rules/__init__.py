"""Pure rules of hired trades."""
