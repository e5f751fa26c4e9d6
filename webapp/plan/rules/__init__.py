"""Pure rules of the plan."""
