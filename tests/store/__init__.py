"""Tests of the survey file."""
