"""Footage: what must be filmed, what was, where the files lie.

May import: plan, photos, accounts, core, values.
"""
