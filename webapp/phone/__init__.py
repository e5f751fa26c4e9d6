"""Phone: a secure address on the own network, how a phone comes to trust it, and what works where it does not.

May import: accounts, core, values.
"""
