"""Phases, tasks and what needs what."""
