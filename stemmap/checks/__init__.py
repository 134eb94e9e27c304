"""Doubts about the records, one file for each check. A check sees the survey and reports findings; it changes nothing."""
