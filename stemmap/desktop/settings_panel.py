"""Settings of the open survey: units, north, design, errors. A change is computed and shown at once, and not saved."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import (
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.circles_field import CirclesField
from stemmap.desktop.fields import ChoiceField, NumberField
from stemmap.desktop.session import Session
from stemmap.errors import InputError

if TYPE_CHECKING:
    from stemmap.survey.settings import Settings


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
#: Keys that matter for one kind of design only.
_OF_DESIGN = {
    "design.radius_m": ("fixed",),
    "design.circles": ("concentric",),
    "design.basal_area_factor": ("angle_count",),
    "design.max_radius_m": ("angle_count",),
    "design.slope": ("fixed", "concentric"),
}


class SettingsPanel(QScrollArea):
    """Shows the session's settings and asks it for others.

    Signals
    -------
    refused
        Sentence that says why an edit cannot be.
    """

    refused = Signal(str)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(self.tr("Settings"))
        self.fields: dict[str, ChoiceField | NumberField | CirclesField] = {}
        self._forms: dict[str, QFormLayout] = {}
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(10, 8, 10, 10)
        self._assumed = QLabel()
        self._assumed.setWordWrap(True)
        layout.addWidget(self._assumed)
        for title, items in (
            (self.tr("Measurement"), self._measurement()),
            (self.tr("Sampling design"), self._design()),
            (self.tr("Errors of measurement (standard deviations)"), self._errors()),
        ):
            self._add_group(layout, title, items)
        layout.addLayout(self._buttons())
        layout.addStretch(1)
        self.setWidget(page)
        session.replaced.connect(self._on_settings)
        session.settings_edited.connect(self._on_settings)

    def _buttons(self) -> QHBoxLayout:
        self.save_button = QPushButton(self.tr("Save settings…"))
        self.save_button.setToolTip(self.tr("Write these settings to a file; your uploads are never changed"))
        self.back_button = QPushButton(self.tr("As opened"))
        self.back_button.setToolTip(self.tr("Go back to the settings with which the uploads were opened"))
        self.back_button.clicked.connect(self._on_back)
        row = QHBoxLayout()
        row.addWidget(self.back_button)
        row.addWidget(self.save_button)
        return row

    def _add_group(self, layout: QVBoxLayout, title: str, items: tuple[Item, ...]) -> None:
        heading = QLabel(title)
        font = heading.font()
        font.setBold(True)
        heading.setFont(font)
        heading.setContentsMargins(0, 10, 0, 2)
        heading.setWordWrap(True)
        layout.addWidget(heading)
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        for item in items:
            field = self._field(item)
            field.setToolTip(field.toolTip() or item.help)
            field.setWhatsThis(item.help)
            field.setAccessibleName(item.label)
            field.setAccessibleDescription(item.help)
            self.fields[item.key], self._forms[item.key] = field, form
            if isinstance(field, CirclesField):
                form.addRow(field)
                continue
            label = QLabel(item.label)
            label.setBuddy(field)
            label.setToolTip(item.help)
            form.addRow(label, field)
        layout.addLayout(form)

    def _field(self, item: Item) -> ChoiceField | NumberField | CirclesField:
        match item:
            case Choice():
                choice = ChoiceField(item.choices)
                choice.activated.connect(partial(self._on_choice, item.key, choice))
                return choice
            case Number():
                number = NumberField(
                    decimals=item.decimals,
                    step=item.step,
                    largest=item.largest,
                    unit=item.unit,
                    unset=item.unset,
                )
                number.valueChanged.connect(partial(self._on_number, item.key, number))
                return number
            case Circles():
                circles = CirclesField()
                circles.edited.connect(partial(self._edit, item.key))
                circles.refused.connect(self.refused)
                return circles

    def _measurement(self) -> tuple[Item, ...]:
        tr = self.tr
        return (
            Choice(
                "measurement.azimuth_unit",
                tr("Azimuth unit"),
                tr("Parts of the full circle in which azimuths were typed"),
                (
                    ("degree", tr("degree (360)")),
                    ("gon", tr("gon (400)")),
                    ("mil_6400", tr("mil (6400)")),
                    ("mil_6300", tr("mil (6300)")),
                    ("mil_6000", tr("mil (6000)")),
                ),
            ),
            Choice(
                "measurement.north",
                tr("North"),
                tr("The north from which azimuths were measured"),
                (("grid", tr("grid")), ("true", tr("true")), ("magnetic", tr("magnetic"))),
            ),
            Choice(
                "measurement.distance",
                tr("Distance"),
                tr("Whether distances were measured level or along the slope"),
                (("horizontal", tr("horizontal")), ("slope", tr("along the slope"))),
            ),
            Choice(
                "measurement.distance_to",
                tr("Distance to"),
                tr("The axis of the stem, or its face towards the centre"),
                (("axis", tr("axis of the stem")), ("face", tr("face of the stem"))),
            ),
            Choice(
                "measurement.method",
                tr("Measured"),
                tr("From the plot centre, or standing at each stem"),
                (("from_centre", tr("from the centre")), ("at_stem", tr("at the stem"))),
            ),
            Choice(
                "measurement.length_unit",
                tr("Lengths"),
                tr("Metres and centimetres, or feet and inches"),
                (("metre", tr("metre")), ("foot", tr("foot"))),
            ),
        )

    def _design(self) -> tuple[Item, ...]:
        tr = self.tr
        unset = tr("not said")
        return (
            Choice(
                "design.kind",
                tr("Design"),
                tr("The rule by which a stem belongs to the sample"),
                (
                    ("fixed", tr("one fixed circle")),
                    ("concentric", tr("concentric circles")),
                    ("angle_count", tr("angle count")),
                ),
            ),
            Number(
                "design.radius_m",
                tr("Radius"),
                tr("Of plots that state no radius of their own"),
                "m",
                2,
                0.1,
                unset=unset,
            ),
            Circles("design.circles", tr("Circles"), tr("Radius and limits of dbh of each circle")),
            Number(
                "design.basal_area_factor",
                tr("Basal area factor"),
                tr("Basal area per hectare that each counted stem stands for"),
                "m²/ha",
                unset=unset,
            ),
            Number(
                "design.max_radius_m",
                tr("Largest radius"),
                tr("Beyond it no stem is counted"),
                "m",
                unset=tr("none"),
            ),
            Number(
                "design.min_dbh_cm",
                tr("Smallest dbh"),
                tr("Thinner stems do not count"),
                "cm",
                1,
                1.0,
                unset=tr("none"),
            ),
            Choice(
                "design.slope",
                tr("On slopes"),
                tr("How the circle was laid out where the ground is steep"),
                (
                    ("horizontal", tr("level distances")),
                    ("same_radius_on_slope", tr("same radius on the slope")),
                    ("enlarged_radius_on_slope", tr("enlarged radius on the slope")),
                ),
            ),
        )

    def _errors(self) -> tuple[Item, ...]:
        tr = self.tr
        return (
            Number("errors.azimuth_sd_deg", tr("Azimuth"), tr("Standard deviation of an azimuth"), "°"),
            Number(
                "errors.distance_sd_m", tr("Distance"), tr("Standard deviation of a distance"), "m", 2, 0.01
            ),
            Number("errors.distance_sd_percent", tr("Distance, share"), tr("Added to it, percent"), "%"),
            Number("errors.vertical_angle_sd_deg", tr("Vertical angle"), tr("Standard deviation"), "°"),
            Number("errors.dbh_sd_mm", tr("Dbh"), tr("Standard deviation of a diameter"), "mm", 1, 0.5),
            Number("errors.dbh_sd_percent", tr("Dbh, share"), tr("Added to it, percent"), "%"),
            Number(
                "errors.borderline_probability",
                tr("Borderline from"),
                tr("A stem is borderline when it is in with a probability between this and one minus this"),
                "",
                3,
                0.005,
                0.499,
            ),
            Number(
                "errors.borderline_m",
                tr("or within"),
                tr("A stem is borderline when it is this close to its limiting distance"),
                "m",
                2,
                0.01,
            ),
        )

    @Slot()
    def _on_settings(self) -> None:
        settings = self._session.settings
        if settings is None:
            return
        for key, field in self.fields.items():
            section, _, name = key.partition(".")
            value = getattr(getattr(settings, section), name)
            match field:
                case ChoiceField():
                    field.show_value(value)
                case NumberField():
                    field.show_number(value)
                case CirclesField():
                    field.show_circles(value)
        for key, kinds in _OF_DESIGN.items():
            self._forms[key].setRowVisible(self.fields[key], settings.design.kind in kinds)
        self._assumed.setText(self._assumed_words(settings))
        self.back_button.setEnabled(settings != self._session.settings_at_opening)

    def _assumed_words(self, settings: Settings) -> str:
        from stemmap.survey.settings import assumed

        labels = []
        for key in assumed(settings):
            field = self.fields.get(key)
            if isinstance(field, ChoiceField):
                labels.append(f"{field.accessibleName().lower()} {field.currentText()}")
            elif isinstance(field, NumberField):
                name = field.accessibleName().lower()
                labels.append(self.tr("error of {name} {value}").format(name=name, value=field.text()))
        if not labels:
            return self.tr("All that matters was said in the settings of this survey.")
        return self.tr("Assumed, because nobody said otherwise: {list}.").format(list=", ".join(labels))

    def _on_choice(self, key: str, field: ChoiceField, _place: int) -> None:
        self._edit(key, field.value)

    def _on_number(self, key: str, field: NumberField, _value: float) -> None:
        self._edit(key, field.number)

    def _edit(self, key: str, value: Any) -> None:
        try:
            self._session.edit(key, value)
        except InputError as fault:
            self.refused.emit(str(fault))
            self._on_settings()

    @Slot()
    def _on_back(self) -> None:
        if self._session.settings_at_opening is not None:
            self._session.want(self._session.settings_at_opening)
