"""Pure rules of the phone."""
