"""Pure rules of surfaces."""
