"""Pure rules of the plan: the graph of needs."""
