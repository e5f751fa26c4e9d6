"""Inspections: what an inspector must see before it disappears.

Owns permits, inspections, visits, results per surface, corrections and fees.
May import: surfaces, money, footage, plan, photos, accounts, core, values.
"""
