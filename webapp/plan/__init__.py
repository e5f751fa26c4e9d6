"""Plan: builds, phases, tasks and what needs what.

Owns the one graph of needs as it was typed. Other packages derive stops from their own records; `readiness` judges.
May import: accounts, core, values.
"""
