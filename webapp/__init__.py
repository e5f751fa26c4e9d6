"""Studbay: keeps one self-builder's long build straight.

`values` are pure words, `core` is the machine room, `accounts` knows who asks. `plan`, `photos`, `footage`, `surfaces`,
`inspections` and `money` keep the record; `readiness` computes from it what stops what; `workdays` is the phone on
site, `episodes` and `audience` tell the viewers, `today` is the first page, `backup` and `demo` serve the whole.
Who may import whom is held by the contracts in pyproject.toml.
"""
