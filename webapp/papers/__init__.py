"""Papers: the approved plan, makers' instructions, letters, handouts, cards: kept as they came, at hand at a visit.

May import: photos, plan, accounts, core, values.
"""
