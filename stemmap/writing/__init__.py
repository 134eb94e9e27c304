"""Results out: layers, tables and reports."""
