"""Pure rules of tests on lines."""
