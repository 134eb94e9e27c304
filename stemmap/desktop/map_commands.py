"""What the window can be told to do with the map, and the menus it stands in."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence

from stemmap.desktop.actions import SEPARATOR, Entry
from stemmap.desktop.map_layers import action_name, colour_texts, layer_texts

if TYPE_CHECKING:
    from stemmap.desktop.map_canvas import MapCanvas
    from stemmap.desktop.window import MainWindow

_tr = QCoreApplication.translate
_Key = QKeySequence.StandardKey

#: Denominators of the scales at which the map can be shown true to scale.
SCALES = (50, 100, 200, 500, 1000)
MAP_MENU = (
    *("zoom-in", "zoom-out", "fit", SEPARATOR, "overview", "into-plot", "go-to"),
    *(SEPARATOR, "measure", "add-background", "remove-backgrounds"),
)
SCALE_MENU = tuple(f"scale-{scale}" for scale in SCALES)


def layers_menu() -> tuple[str, ...]:
    """Names of the actions that tick layers."""
    return tuple(action_name(layer) for layer in layer_texts())


def fill_by_menu() -> tuple[str, ...]:
    """Names of the actions that choose what the fills mean."""
    return tuple(f"fill-{key}" for key in colour_texts())


def map_commands(window: MainWindow) -> tuple[Entry, ...]:
    """Everything that can be done with the map."""
    return (*_of_view(window), *_of_layers(window))


def _canvas(window: MainWindow) -> MapCanvas:
    return window.panels.map_panel.canvas


def _set_scale(window: MainWindow, scale: int) -> None:
    _canvas(window).set_scale(scale)


def _toggle_layer(window: MainWindow, layer: str) -> None:
    _canvas(window).layers.toggle(layer)


def _fill_by(window: MainWindow, key: str) -> None:
    _canvas(window).layers.want(colour_by=key)


def _of_view(window: MainWindow) -> tuple[Entry, ...]:
    scale_help = _tr("commands", "Show the map at 1:{scale} on this screen, by the size the screen reports")
    return (
        Entry(
            "zoom-in",
            _tr("commands", "Zoom &in"),
            _tr("commands", "Enlarge the map; the wheel does it at the pointer"),
            lambda: _canvas(window).zoom_in(),
            ("+", "=", _Key.ZoomIn),
            "survey",
        ),
        Entry(
            "zoom-out",
            _tr("commands", "Zoom &out"),
            _tr("commands", "Reduce the map, from a plot over to all plots"),
            lambda: _canvas(window).zoom_out(),
            ("-", _Key.ZoomOut),
            "survey",
        ),
        Entry(
            "fit",
            _tr("commands", "&Whole plot"),
            _tr("commands", "Fit the plot, or all plots, into the map; a double click does the same"),
            lambda: _canvas(window).fit(),
            ("0", "Ctrl+0"),
            "survey",
        ),
        Entry(
            "overview",
            _tr("commands", "&All plots"),
            _tr("commands", "Show all plots at their places; on the map the Home key does it"),
            lambda: _canvas(window).show_survey(),
            ("Alt+Up",),
            "survey",
        ),
        Entry(
            "into-plot",
            _tr("commands", "Into t&he plot"),
            _tr("commands", "Show the stems of the selected plot; on the map the Enter key does it"),
            lambda: _canvas(window).show_plot(),
            ("Alt+Down",),
            "survey",
        ),
        Entry(
            "go-to",
            _tr("commands", "&Go to…"),
            _tr("commands", "Type a plot, a stem or coordinates to go there"),
            lambda: window.panels.map_panel.goto.ask(),  # noqa: PLW0108 - there is no map yet
            ("Ctrl+G",),
            "survey",
        ),
        Entry(
            "measure",
            _tr("commands", "&Measure"),
            _tr("commands", "Drag from point to point to read distance and grid azimuth; once more ends it"),
            lambda: _canvas(window).switch_measuring(),
            ("M",),
            "survey",
            checkable=True,
        ),
        Entry(
            "add-background",
            _tr("commands", "A&dd background…"),
            _tr("commands", "Put your own GeoPackage, GeoJSON, GeoTIFF or picture with a world file under the map"),
            lambda: _canvas(window).backgrounds.choose(window),
            ("Ctrl+Shift+B",),
            "survey",
        ),
        Entry(
            "remove-backgrounds",
            _tr("commands", "Remove bac&kgrounds"),
            _tr("commands", "Take all files of your own from under the map; the files stay as they are"),
            lambda: _canvas(window).backgrounds.clear(),  # noqa: PLW0108 - there is no map yet
            needs="survey",
        ),
        *(
            Entry(
                f"scale-{scale}",
                f"1:{scale}",
                scale_help.format(scale=scale),
                partial(_set_scale, window, scale),
                needs="survey",
            )
            for scale in SCALES
        ),
    )


def _of_layers(window: MainWindow) -> tuple[Entry, ...]:
    keys = {"backgrounds": "B", "legend": "L", "unseen": "H", "order": "O"}
    for number, layer in enumerate(layer_texts(), start=1):
        keys.setdefault(layer, f"Alt+{number % 10}")
    return (
        *(
            Entry(
                action_name(layer),
                text,
                explanation,
                partial(_toggle_layer, window, layer),
                (keys[layer],),
                "survey",
                checkable=True,
            )
            for layer, (text, explanation) in layer_texts().items()
        ),
        *(
            Entry(
                f"fill-{key}",
                text,
                _tr("commands", "What the fill of a stem stands for"),
                partial(_fill_by, window, key),
                needs="survey",
                checkable=True,
            )
            for key, text in colour_texts().items()
        ),
    )
