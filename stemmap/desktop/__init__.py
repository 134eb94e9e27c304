"""The window. Only here may Qt's widgets be used."""
