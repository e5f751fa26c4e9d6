"""Workdays: the phone on site. One form, all parts optional, saved wholly and once.

May import: readiness, inspections, money, surfaces, footage, photos, plan, accounts, core, values.
"""
