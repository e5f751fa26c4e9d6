"""Hired: trades that work under their own licence: what they do, what they sign, what is still waited for.

May import: papers, surfaces, money, footage, photos, plan, accounts, core, values.
"""
