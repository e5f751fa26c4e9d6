"""Pure rules of readiness: the one graph every page asks, and its answers in words."""
