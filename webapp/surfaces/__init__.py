"""Surfaces: what will be closed up, what is hidden in it, what is owed before.

A *surface* is anything that gets closed: a wall face, a ceiling, a floor, a slab, a trench.
May import: footage, plan, photos, accounts, core, values.
"""
