"""Photos: pictures and their secrets.

The original is kept byte for byte and private; what is shown are derived copies without any metadata.
May import: accounts, core, values.
"""
