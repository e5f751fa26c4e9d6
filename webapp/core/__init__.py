"""The machine room: database, rendering, settings, clock, errors. Knows no word of building.

May import: values.
"""
