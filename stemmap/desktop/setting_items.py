"""The settings that the window offers, in words."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

_tr = QCoreApplication.translate


@dataclass(frozen=True)
class Choice:
    """A setting with a few allowed values and the words shown for them."""

    key: str
    label: str
    help: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Number:
    """A setting that is a number; `unset` are the words for "not said" where that is allowed."""

    key: str
    label: str
    help: str
    unit: str
    decimals: int = 2
    step: float = 0.1
    largest: float = 1000.0
    unset: str = ""


@dataclass(frozen=True)
class Circles:
    """The concentric circles."""

    key: str
    label: str
    help: str


Item = Choice | Number | Circles


def measurement_items() -> tuple[Item, ...]:
    """How the stems were measured and written."""
    return (
        Choice(
            "measurement.azimuth_unit",
            _tr("setting_items", "Azimuth unit"),
            _tr("setting_items", "Parts of the full circle in which azimuths were typed"),
            (
                ("degree", _tr("setting_items", "degree (360)")),
                ("gon", _tr("setting_items", "gon (400)")),
                ("mil_6400", _tr("setting_items", "mil (6400)")),
                ("mil_6300", _tr("setting_items", "mil (6300)")),
                ("mil_6000", _tr("setting_items", "mil (6000)")),
            ),
        ),
        Choice(
            "measurement.north",
            _tr("setting_items", "North"),
            _tr("setting_items", "The north from which azimuths were measured"),
            (
                ("grid", _tr("setting_items", "grid")),
                ("true", _tr("setting_items", "true")),
                ("magnetic", _tr("setting_items", "magnetic")),
            ),
        ),
        Choice(
            "measurement.distance",
            _tr("setting_items", "Distance"),
            _tr("setting_items", "Whether distances were measured level or along the slope"),
            (
                ("horizontal", _tr("setting_items", "horizontal")),
                ("slope", _tr("setting_items", "along the slope")),
            ),
        ),
        Choice(
            "measurement.distance_to",
            _tr("setting_items", "Distance to"),
            _tr("setting_items", "The axis of the stem, or its face towards the centre"),
            (
                ("axis", _tr("setting_items", "axis of the stem")),
                ("face", _tr("setting_items", "face of the stem")),
            ),
        ),
        Choice(
            "measurement.method",
            _tr("setting_items", "Measured"),
            _tr("setting_items", "From the plot centre, or standing at each stem"),
            (
                ("from_centre", _tr("setting_items", "from the centre")),
                ("at_stem", _tr("setting_items", "at the stem")),
            ),
        ),
        Choice(
            "measurement.length_unit",
            _tr("setting_items", "Lengths"),
            _tr("setting_items", "Metres and centimetres, or feet and inches"),
            (("metre", _tr("setting_items", "metre")), ("foot", _tr("setting_items", "foot"))),
        ),
    )


def design_items() -> tuple[Item, ...]:
    """The sampling design."""
    unset = _tr("setting_items", "not said")
    return (
        Choice(
            "design.kind",
            _tr("setting_items", "Design"),
            _tr("setting_items", "The rule by which a stem belongs to the sample"),
            (
                ("fixed", _tr("setting_items", "one fixed circle")),
                ("concentric", _tr("setting_items", "concentric circles")),
                ("angle_count", _tr("setting_items", "angle count")),
            ),
        ),
        Number(
            "design.radius_m",
            _tr("setting_items", "Radius"),
            _tr("setting_items", "Of plots that state no radius of their own"),
            "m",
            2,
            0.1,
            unset=unset,
        ),
        Circles(
            "design.circles",
            _tr("setting_items", "Circles"),
            _tr("setting_items", "Radius and limits of dbh of each circle"),
        ),
        Number(
            "design.basal_area_factor",
            _tr("setting_items", "Basal area factor"),
            _tr("setting_items", "Basal area per hectare that each counted stem stands for"),
            "m²/ha",
            unset=unset,
        ),
        Number(
            "design.max_radius_m",
            _tr("setting_items", "Largest radius"),
            _tr("setting_items", "Beyond it no stem is counted"),
            "m",
            unset=_tr("setting_items", "none"),
        ),
        Number(
            "design.min_dbh_cm",
            _tr("setting_items", "Smallest dbh"),
            _tr("setting_items", "Thinner stems do not count"),
            "cm",
            1,
            1.0,
            unset=_tr("setting_items", "none"),
        ),
        Choice(
            "design.slope",
            _tr("setting_items", "On slopes"),
            _tr("setting_items", "How the circle was laid out where the ground is steep"),
            (
                ("horizontal", _tr("setting_items", "level distances")),
                ("same_radius_on_slope", _tr("setting_items", "same radius on the slope")),
                ("enlarged_radius_on_slope", _tr("setting_items", "enlarged radius on the slope")),
            ),
        ),
    )


def error_items() -> tuple[Item, ...]:
    """Errors of measurement, and what counts as borderline."""
    return (
        Number(
            "errors.azimuth_sd_deg",
            _tr("setting_items", "Azimuth"),
            _tr("setting_items", "Standard deviation of an azimuth"),
            "°",
        ),
        Number(
            "errors.distance_sd_m",
            _tr("setting_items", "Distance"),
            _tr("setting_items", "Standard deviation of a distance"),
            "m",
            2,
            0.01,
        ),
        Number(
            "errors.distance_sd_percent",
            _tr("setting_items", "Distance, share"),
            _tr("setting_items", "Added to it, percent"),
            "%",
        ),
        Number(
            "errors.vertical_angle_sd_deg",
            _tr("setting_items", "Vertical angle"),
            _tr("setting_items", "Standard deviation"),
            "°",
        ),
        Number(
            "errors.dbh_sd_mm",
            _tr("setting_items", "Dbh"),
            _tr("setting_items", "Standard deviation of a diameter"),
            "mm",
            1,
            0.5,
        ),
        Number(
            "errors.dbh_sd_percent",
            _tr("setting_items", "Dbh, share"),
            _tr("setting_items", "Added to it, percent"),
            "%",
        ),
        Number(
            "errors.breast_height_sd_m",
            _tr("setting_items", "Breast height"),
            _tr("setting_items", "How far off breast height is judged from the centre"),
            "m",
            2,
            0.05,
        ),
        Number(
            "errors.taper_cm_per_m",
            _tr("setting_items", "Taper"),
            _tr("setting_items", "How much thinner a stem is one metre further up"),
            "cm/m",
            1,
            0.1,
        ),
        Number(
            "errors.borderline_probability",
            _tr("setting_items", "Borderline from"),
            _tr(
                "setting_items",
                "A stem is borderline when it is in with a probability between this and one minus this",
            ),
            "",
            3,
            0.005,
            0.499,
        ),
        Number(
            "errors.borderline_m",
            _tr("setting_items", "or within"),
            _tr("setting_items", "A stem is borderline when it is this close to its limiting distance"),
            "m",
            2,
            0.01,
        ),
    )
