"""Pure rules of voice: which sounds are taken in, where a note can belong, how it is shown."""
