"""Pure rules of photos: names, sizes, capture times."""
