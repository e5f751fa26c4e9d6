"""Pure rules of permits, visits and results."""
