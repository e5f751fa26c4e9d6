"""Audience: what the world sees. Frozen copies and re-encoded pictures; no way from here to anything private.

May import: photos, accounts, core, values (and nothing else, ever).
"""
