"""The layers chosen for the map, and the panel in which they are ticked."""

from __future__ import annotations

import json
from dataclasses import asdict, fields, replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, QObject, QSettings, Signal, Slot
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QComboBox, QFormLayout, QScrollArea, QVBoxLayout, QWidget

if TYPE_CHECKING:
    from stemmap.drawing.layers import Layers

_tr = QCoreApplication.translate
_KEY = "map/layers"


class MapLayers(QObject):
    """What is drawn on the map of the window; kept from one start to the next.

    Signals
    -------
    changed
        Other layers are wanted.
    """

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._value: Layers | None = None

    @property
    def value(self) -> Layers:
        """The layers wanted."""
        if self._value is None:
            self._value = _kept()
        return self._value

    def want(self, **wanted: Any) -> None:
        """Want some of them changed."""
        changed = replace(self.value, **wanted)
        if changed != self._value:
            self._value = changed
            QSettings().setValue(_KEY, json.dumps(asdict(changed)))
            self.changed.emit()

    def toggle(self, name: str) -> None:
        """Draw a layer, or leave it out."""
        self.want(**{name: not getattr(self.value, name)})


def _kept() -> Layers:
    """The layers wanted last; what is kept but not understood is as usual."""
    from stemmap.drawing.layers import COLOURS_BY, SYMBOL_FACTORS, USUAL

    try:
        kept = json.loads(str(QSettings().value(_KEY, "{}", type=str)))
    except ValueError:
        kept = {}
    choices = {"colour_by": COLOURS_BY, "symbol_factor": SYMBOL_FACTORS}
    known = kept.items() if isinstance(kept, dict) else ()
    names = {field.name for field in fields(USUAL)}
    return replace(
        USUAL, **{name: value for name, value in known if name in names and value in choices.get(name, (True, False))}
    )


def layer_texts() -> dict[str, tuple[str, str]]:
    """Name and explanation of each layer that can be ticked, in the order of panel and menu."""
    return {
        "stems": (_tr("layers", "&Stems"), _tr("layers", "The marks of the stems, to scale")),
        "numbers": (_tr("layers", "&Numbers"), _tr("layers", "Stem numbers; names of plots on the whole survey")),
        "species": (_tr("layers", "S&pecies"), _tr("layers", "The species in words beside each stem")),
        "findings": (_tr("layers", "&Findings"), _tr("layers", "Outlines, letters and where a stem may stand")),
        "last_visit": (_tr("layers", "&Last visit"), _tr("layers", "Where the stems stood at the visit before")),
        "uncertainty": (
            _tr("layers", "&Uncertainty"),
            _tr("layers", "Ellipses of two standard deviations of each position"),
        ),
        "circles": (_tr("layers", "&Circles"), _tr("layers", "Borders of the plot")),
        "borderline_zone": (
            _tr("layers", "&Borderline zone"),
            _tr("layers", "The ring in which a stem is too close to a border to be decided from the centre"),
        ),
        "polar_grid": (_tr("layers", "P&olar grid"), _tr("layers", "Rings at round distances and rays of azimuth")),
        "projected_grid": (
            _tr("layers", "Pro&jected grid"),
            _tr("layers", "Lines of round easting and northing with their coordinates"),
        ),
        "unseen": (
            _tr("layers", "&Hidden ground"),
            _tr("layers", "Hatching of the ground that stems hide from the centre"),
        ),
        "order": (
            _tr("layers", "O&rder of numbers"),
            _tr("layers", "A path from stem to stem by number, in which a break in the order is seen"),
        ),
        "backgrounds": (_tr("layers", "B&ackgrounds"), _tr("layers", "The files of your own under the map")),
        "legend": (_tr("layers", "L&egend"), _tr("layers", "Show what the marks mean, or give its room to the map")),
    }


def colour_texts() -> dict[str, str]:
    """Names of what the fill of a stem can stand for."""
    return {
        "species": _tr("layers", "Species"),
        "status": _tr("layers", "Status"),
        "dbh": _tr("layers", "dbh"),
        "visit": _tr("layers", "New since the last visit"),
        "finding": _tr("layers", "Finding"),
    }


class LayersPanel(QScrollArea):
    """Check boxes of the layers and backgrounds, what the fills mean, and how thick stems are drawn."""

    def __init__(self, layers: MapLayers, backgrounds: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        from stemmap.drawing.layers import SYMBOL_FACTORS

        self._layers = layers
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setAccessibleName(_tr("layers", "Layers"))
        content = QWidget()
        column = QVBoxLayout(content)
        self.boxes: dict[str, QCheckBox] = {}
        for name, (text, explanation) in layer_texts().items():
            box = QCheckBox(text.replace("&", ""))  # mnemonics are those of the menus
            box.setToolTip(explanation)
            box.setWhatsThis(explanation)
            box.toggled.connect(lambda on, name=name: layers.want(**{name: on}))
            column.addWidget(box)
            self.boxes[name] = box
            if name == "backgrounds":
                column.addWidget(backgrounds)
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        self.colour_by = QComboBox()
        self.colour_by.setAccessibleName(_tr("layers", "Fill by"))
        for key, word in colour_texts().items():
            self.colour_by.addItem(word, key)
        self.colour_by.activated.connect(lambda _row: layers.want(colour_by=self.colour_by.currentData()))
        form.addRow(_tr("layers", "Fill by"), self.colour_by)
        self.factor = QComboBox()
        self.factor.setAccessibleName(_tr("layers", "Stems drawn"))
        for factor in SYMBOL_FACTORS:
            word = _tr("layers", "to scale") if factor == 1.0 else _tr("layers", "{factor} times as thick")
            self.factor.addItem(word.format(factor=f"{factor:g}"), factor)
        self.factor.activated.connect(lambda _row: layers.want(symbol_factor=self.factor.currentData()))
        form.addRow(_tr("layers", "Stems drawn"), self.factor)
        column.addLayout(form)
        column.addStretch(1)
        self.setWidget(content)
        layers.changed.connect(self._show)
        self._show()

    @Slot()
    def _show(self) -> None:
        value = self._layers.value
        for name, box in self.boxes.items():
            box.setChecked(getattr(value, name))
        self.colour_by.setCurrentIndex(self.colour_by.findData(value.colour_by))
        self.factor.setCurrentIndex(self.factor.findData(value.symbol_factor))


def follow(actions: dict[str, QAction], layers: MapLayers) -> None:
    """Keep the ticks of the menu as the layers are."""

    def show() -> None:
        value = layers.value
        for name in layer_texts():
            actions[action_name(name)].setChecked(getattr(value, name))
        for key in colour_texts():
            actions[f"fill-{key}"].setChecked(value.colour_by == key)

    layers.changed.connect(show)
    show()


def action_name(layer: str) -> str:
    """Name of the action that ticks a layer."""
    return "legend" if layer == "legend" else f"layer-{layer.replace('_', '-')}"
