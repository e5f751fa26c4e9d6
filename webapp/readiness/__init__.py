"""Readiness: what stops what, what can start now, and whether a surface may be covered. Has no tables: all is computed.

May import: inspections, surfaces, footage, money, plan, photos, accounts, core, values.
"""
