"""Line tests: pressure, water, flood, continuity: what was read at the start and at the end, when, with the picture.

May import: papers, surfaces, money, footage, photos, plan, accounts, core, values.
"""
