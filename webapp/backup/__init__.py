"""Backup: copies that bring everything back, and a look over the data folder.

May import: photos, accounts, core, values.
"""
