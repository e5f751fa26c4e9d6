"""What inspections write for other programs to read."""
