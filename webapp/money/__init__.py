"""Money: what was spent, on what, with the receipt. Whole cents.

May import: plan, photos, accounts, core, values.
"""
