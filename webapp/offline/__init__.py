"""Offline: which sheets a phone keeps to be read without signal, the worker that keeps them, and what is not sent yet.

Has no tables: what a phone holds lies on the phone. May import: all packages below.
"""
