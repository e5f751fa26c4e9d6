"""Values: the pure words every package shares.

Owns lengths, money, durations, days, estimates, verdicts and the errors that rules and actions raise.
Every sum is exact: integer nanometres, cents and minutes, with `Fraction` in between and no floating point.
May import: nothing of ours.
"""
