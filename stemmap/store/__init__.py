"""The survey file: records as typed, uploads, settings and the journal in one GeoPackage that any GIS opens."""
