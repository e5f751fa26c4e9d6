"""Demo: a year of an invented build, "Bindery", to try everything on.

Owns the scenario's files (`content/*.csv`), the rules that read them into typed rows with dates relative to
today, and the drawings that stand for its pictures. Nothing here is a real place, person, brand or product.
"""
