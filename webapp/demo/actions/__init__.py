"""Fills an empty record with the whole year of the invented build."""

from webapp.demo.actions.loading import held_day, load

__all__ = ["held_day", "load"]
