"""Pure rules of the demo: reading the scenario's text, and deciding what each of its pictures shows."""
