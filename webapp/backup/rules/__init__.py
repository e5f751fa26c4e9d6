"""Pure rules of backup: what a copy says of itself, which copies are kept, when the next one is due."""
