"""stemmap: checks, maps and summarises stem records of circular forest sample plots."""

__version__ = "0.1.0"
