"""The model of a survey: records as typed, visits and stems as columns, settings, findings. No files, no Qt."""
