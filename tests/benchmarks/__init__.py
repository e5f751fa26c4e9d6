"""Benchmarks: not part of the test run. `python -m tests.benchmarks.run` prints ratios to a bare page."""
