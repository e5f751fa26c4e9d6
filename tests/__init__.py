"""Tests: sentences about the builder, in the builder's nouns."""
