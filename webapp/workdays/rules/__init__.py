"""Pure rules of workdays: whose hours, what a day may say, what it freed."""
