"""Check boxes of the files of the user's own under the map, one for each file or layer."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Slot
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from stemmap.desktop.map_backgrounds import Ground, MapBackgrounds

_tr = QCoreApplication.translate


class BackgroundBoxes(QWidget):
    """Follows and switches the backgrounds of the map; takes no room while there are none."""

    def __init__(self, backgrounds: MapBackgrounds, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._backgrounds = backgrounds
        self.boxes: list[QCheckBox] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(18, 0, 0, 0)
        self.setAccessibleName(_tr("layers", "Backgrounds"))
        backgrounds.changed.connect(self._show)
        self._show()

    @Slot()
    def _show(self) -> None:
        grounds = self._backgrounds.grounds
        for place, ground in enumerate(grounds):
            if place == len(self.boxes):
                box = QCheckBox()
                box.clicked.connect(lambda on, place=place: self._on_clicked(place, on=on))
                self._column.addWidget(box)
                self.boxes.append(box)
            self._tell(self.boxes[place], ground)
        for box in self.boxes[len(grounds) :]:
            self._column.removeWidget(box)
            box.deleteLater()
        del self.boxes[len(grounds) :]
        self.setVisible(bool(grounds))

    def _tell(self, box: QCheckBox, ground: Ground) -> None:
        box.setText(ground.title.replace("&", "&&"))
        box.setToolTip(str(ground.path))
        box.setChecked(ground.on)

    def _on_clicked(self, place: int, *, on: bool) -> None:
        self._backgrounds.switch(self._backgrounds.grounds[place], on=on)
