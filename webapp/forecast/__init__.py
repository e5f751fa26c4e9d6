"""Forecast: when it will be done, and what to do next. The rules of it stand; pages and tables are still to come.

May import: readiness, inspections, money, surfaces, footage, photos, plan, accounts, core, values.
"""
