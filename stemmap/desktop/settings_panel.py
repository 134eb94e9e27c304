"""Settings of the open survey: units, north, design, errors. A change is computed and shown at once, and not saved."""

from __future__ import annotations

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
from stemmap.desktop.setting_items import (
    Choice,
    Circles,
    Item,
    Number,
    design_items,
    error_items,
    measurement_items,
)
from stemmap.desktop.wording import worded
from stemmap.errors import InputError

if TYPE_CHECKING:
    from stemmap.survey.settings import Settings


#: Keys that matter for one kind of design only.
_OF_DESIGN = {
    "design.radius_m": ("fixed",),
    "design.circles": ("concentric",),
    "design.basal_area_factor": ("angle_count",),
    "design.max_radius_m": ("angle_count",),
    "design.slope": ("fixed", "concentric"),
}

#: A system may be a text of many lines.
_LONGEST_SYSTEM = 24


class SettingsPanel(QWidget):
    """Shows the session's settings and asks it for others.

    Signals
    -------
    refused
        Sentence that says why an edit cannot be.
    system_wanted
        Another coordinate system is to be chosen.
    """

    refused = Signal(str)
    system_wanted = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setAccessibleName(self.tr("Settings"))
        self.fields: dict[str, ChoiceField | NumberField | CirclesField] = {}
        self._forms: dict[str, QFormLayout] = {}
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(10, 8, 10, 10)
        self._assumed = QLabel()
        self._assumed.setWordWrap(True)
        self._assumed.setContentsMargins(10, 6, 10, 0)
        self._assumed.setMinimumWidth(1)
        self._add_group(layout, self.tr("Measurement"), measurement_items())
        self._add_system(self._forms["measurement.azimuth_unit"])
        self._add_group(layout, self.tr("Sampling design"), design_items())
        self._add_group(layout, self.tr("Errors of measurement (standard deviations)"), error_items())
        layout.addStretch(1)
        scroll = QScrollArea()
        scroll.setAccessibleName(self.tr("List of settings"))
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(page)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(0)
        outer.addWidget(scroll, 1)
        outer.addWidget(self._assumed)  # below, so that no field moves away under the pointer when it changes
        outer.addLayout(self._buttons())
        self._shown: tuple[Settings, Settings | None] | None = None
        session.replaced.connect(self._on_replaced)
        session.settings_edited.connect(self._on_settings)

    def _buttons(self) -> QHBoxLayout:
        self.save_button = QPushButton(self.tr("Save settings…"))
        self.save_button.setToolTip(self.tr("Write these settings to a file; your uploads are never changed"))
        self.back_button = QPushButton(self.tr("As opened"))
        self.back_button.setToolTip(self.tr("Go back to the settings with which the uploads were opened"))
        self.back_button.clicked.connect(self._on_back)
        row = QHBoxLayout()
        row.setContentsMargins(10, 6, 10, 8)
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

    def _add_system(self, form: QFormLayout) -> None:
        """The coordinate system, which is chosen from thousands and so in a window of its own."""
        help_ = self.tr("Choose the coordinate system of the plots and of results by name, code or area of use")
        label = QLabel(self.tr("Coordinates"))
        self.system_button = QPushButton()
        self.system_button.setToolTip(help_)
        self.system_button.setWhatsThis(help_)
        self.system_button.clicked.connect(self.system_wanted)
        label.setBuddy(self.system_button)
        label.setToolTip(help_)
        form.addRow(label, self.system_button)

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

    @Slot()
    def _on_replaced(self) -> None:
        """Show the settings of another survey; after a decision they are the same."""
        if self._shown != (self._session.settings, self._session.settings_at_opening):
            self._on_settings()

    @Slot()
    def _on_settings(self) -> None:
        settings = self._session.settings
        if settings is None:
            return
        self._shown = settings, self._session.settings_at_opening
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
        system = settings.crs or self.tr("not said")
        self.system_button.setText(self.tr("{system}…").format(system=system[:_LONGEST_SYSTEM].replace("&", "&&")))
        self.system_button.setAccessibleName(self.tr("Coordinate system: {system}").format(system=system))
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
            self.refused.emit(worded(str(fault)))
            self._on_settings()

    @Slot()
    def _on_back(self) -> None:
        if self._session.settings_at_opening is not None:
            self._session.want(self._session.settings_at_opening)
