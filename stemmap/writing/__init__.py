"""Results as files: tables, JSON, layers for a GIS, settings."""
