"""Tests of stemmap: ``python3 -m tests`` prepares what they need and runs them all."""
