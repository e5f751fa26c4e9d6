"""Episodes: the series the build is told in. Drafts come from approved facts and are frozen into `audience`.

May import: workdays, readiness, inspections, money, audience, surfaces, footage, photos, plan, accounts, core, values.
"""
