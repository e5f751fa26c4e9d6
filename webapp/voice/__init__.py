"""Voice: what was said aloud: kept as sound, byte for byte and private, with words written down later.

May import: plan, photos, accounts, core, values.
"""
