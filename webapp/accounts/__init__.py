"""Accounts: the one owner, the sign-ins that can be ended, and who is asking.

May import: core, values.
"""
