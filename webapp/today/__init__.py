"""Today: the first page. May import all packages below."""
