"""Pure rules of today: what fits the time there is, where a note points in a section, how far off a visit is."""
