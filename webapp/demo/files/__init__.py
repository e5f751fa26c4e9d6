"""What the demo takes from and gives to files: its packaged content and its painted pictures."""
