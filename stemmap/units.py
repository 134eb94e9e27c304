"""Units of the trade. Inside the program lengths are metres, angles degrees, and only dbh is in centimetres."""

from types import MappingProxyType

#: Parts of a full circle by azimuth unit.
FULL_CIRCLE = MappingProxyType(
    {"degree": 360.0, "gon": 400.0, "mil_6400": 6400.0, "mil_6300": 6300.0, "mil_6000": 6000.0}
)

#: Metres per unit of distance and radius.
METRES = MappingProxyType({"metre": 1.0, "foot": 0.3048})

#: Centimetres per unit of dbh in a file whose lengths are metric or in feet.
DBH_CENTIMETRES = MappingProxyType({"metre": 1.0, "foot": 2.54})

#: Decimals in which differences of two measurements are told, by unit.
DIFFERENCE_DECIMALS = MappingProxyType({"°": 2, "m": 3, "cm": 2})

SQUARE_METRES_PER_HECTARE = 10_000.0

#: Square metres per hectare in one square foot per acre (international foot, acre = 43,560 square feet).
SQUARE_FEET_PER_ACRE = 10_000.0 / 43_560.0
