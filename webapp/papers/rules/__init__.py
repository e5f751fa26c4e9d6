"""Pure rules of papers."""
