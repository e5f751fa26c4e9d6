"""Pure rules of footage: the order in which shots are owed."""
