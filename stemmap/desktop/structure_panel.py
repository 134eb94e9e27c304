"""How the stems of the selected plot, or of the whole survey, stand to each other: diagrams and sentences."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QLocale, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QImage, QPalette, QPixmap, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from stemmap.desktop.diagram_picture import DiagramPicture
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.paragraph import paragraph
from stemmap.desktop.raised import in_sight
from stemmap.desktop.sentences import visit_name
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.wording import worded

if TYPE_CHECKING:
    from stemmap.drawing.diagrams import Diagram, Style
    from stemmap.progress import Progress
    from stemmap.survey.structure import Structure
    from stemmap.survey.summary import Summary

#: Height over width of a diagram, and its least and most width in the panel.
_SHAPE, _LEAST, _MOST = 0.62, 200, 480


@dataclass(frozen=True)
class Told:
    """What is shown: of which summary and visit, the results, and the diagrams in the language of the window."""

    summary: Summary
    visit: int
    made: Structure
    strata: tuple[Structure, ...]
    diagrams: tuple[Diagram, ...]


class StructurePanel(QScrollArea):
    """Follows the selected visit; compares with chance and draws off the GUI thread, and only while it is in sight.

    Signals
    -------
    save_wanted
        The user wants these diagrams in a file.
    """

    save_wanted = Signal(tuple)

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._jobs = session, jobs
        self._wanted: tuple[object, int] = (None, WHOLE_SURVEY)
        self.told: Told | None = None
        self.pictures: list[DiagramPicture] = []
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        # Always there, so that the width of the diagrams does not depend on their height.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setAccessibleName(self.tr("Spatial structure"))
        self._heading = paragraph(bold=True)
        self.state = paragraph()
        self.save_button = QPushButton(self.tr("Save diagrams…"))
        self.save_button.setToolTip(self.tr("Write the diagrams as SVG or PNG, or their values as CSV"))
        self.save_button.clicked.connect(self._save_all)
        self.again_button = QPushButton(self.tr("Compute"))
        self.again_button.setToolTip(self.tr("Compare the stems with chance"))
        self.again_button.clicked.connect(self._compute)
        buttons = QHBoxLayout()
        buttons.addWidget(self.save_button)
        buttons.addWidget(self.again_button)
        buttons.addStretch(1)
        self._results = QWidget()
        page = QWidget()
        self._layout = QVBoxLayout(page)
        self._layout.setContentsMargins(10, 8, 10, 10)
        self._layout.addWidget(self._heading)
        self._layout.addWidget(self.state)
        self._layout.addLayout(buttons)
        self._layout.addWidget(self._results)
        self._layout.addStretch(1)
        self.setWidget(page)
        self._wait = QTimer(self, interval=150, singleShot=True)
        self._wait.timeout.connect(self._draw)
        session.replaced.connect(self._renew)
        session.visit_selected.connect(self._renew)

    @Slot()
    def come_into_sight(self) -> None:
        """Compute and draw what came while nobody could see it."""
        self._renew()
        self._wait.start()

    @Slot()
    def _renew(self) -> None:
        workup = self._session.workup
        if workup is None or not in_sight(self):
            return
        wanted = (workup.summary, self._session.visit)
        if self._wanted[0] is not wanted[0] or self._wanted[1] != wanted[1]:
            self._compute()

    @Slot()
    def _compute(self) -> None:
        workup, visit = self._session.workup, self._session.visit
        if workup is None:
            return
        summary = workup.summary
        self._wanted = (summary, visit)
        self._heading.setText(visit_name(workup, visit))
        self._clear(self.tr("Comparing the stems with chance…"))
        self._jobs.start(
            "structure",
            lambda progress: _tell(summary, visit, progress),
            apply=self._on_told,
            refused=self._on_refused,
            shown=visit == WHOLE_SURVEY,
        )

    def _clear(self, state: str, *, stopped: bool = False) -> None:
        self.told, self.pictures = None, []
        self._results.deleteLater()
        self._results = QWidget()
        self._layout.insertWidget(self._layout.count() - 1, self._results)
        self.state.setText(state)
        self.state.setVisible(bool(state))
        self.save_button.setVisible(False)
        self.again_button.setVisible(stopped)

    def _on_refused(self) -> None:
        self._clear(self.tr("The comparison was stopped."), stopped=True)

    def _on_told(self, told: Told) -> None:
        diagrams = told.diagrams
        reason = told.made.reason
        words = self.tr("Not known: {reason}.") if reason else self.tr("Compared: {reason}.")
        self._clear(words.format(reason=worded(reason or told.made.inclusion or "")))
        self.told = told
        self.save_button.setVisible(bool(diagrams))
        layout = QVBoxLayout(self._results)
        layout.setContentsMargins(0, 0, 0, 0)
        for diagram in diagrams:
            picture = DiagramPicture(diagram)
            picture.save_wanted.connect(self._save_one)
            picture.setFixedHeight(round(_SHAPE * self._width()))
            self.pictures.append(picture)
            for part in (paragraph(diagram.title, bold=True), picture, paragraph(diagram.sentence)):
                layout.addWidget(part)
            layout.addSpacing(10)
            if diagram.name == "l_minus_r":
                # Strata may differ so that the survey as a whole shows nothing, or what is true of none of them.
                for stratum in told.strata:
                    layout.addWidget(paragraph(self._stratum_words(stratum)))
        for index in told.made.indices.values():
            layout.addWidget(paragraph(worded(index["sentence"])))
        if told.made.indices:
            from stemmap.survey.structure import CAUTION

            layout.addWidget(paragraph(worded(CAUTION)))
        self._draw()

    @Slot()
    def _save_all(self) -> None:
        if self.told is not None:
            self.save_wanted.emit(self.told.diagrams)

    @Slot()
    def _save_one(self) -> None:
        picture = self.sender()
        if isinstance(picture, DiagramPicture):
            self.save_wanted.emit((picture.diagram,))

    def _stratum_words(self, stratum: Structure) -> str:
        curve = stratum.curves.get("l_minus_r")
        return self.tr("Stratum {name}: {sentence}").format(
            name=stratum.heading["stratum"] or self.tr("(none)"),
            sentence=worded(curve.sentence if curve else stratum.reason),
        )

    def _width(self) -> int:
        return min(max(self.viewport().width() - 20, _LEAST), _MOST)

    @Slot()
    def _draw(self) -> None:
        """Have the diagrams drawn in the colours and at the width of the panel."""
        if self.told is None or not self.told.diagrams or not in_sight(self):
            return
        told, width, ratio = self.told, self._width(), self.devicePixelRatioF()
        style = self._style()

        def work(progress: Progress) -> list[QImage]:
            images = []
            for diagram in told.diagrams:
                progress.step("Drawing")
                images.append(_image(diagram, style, width, ratio))
            return images

        self._jobs.start("structure-pictures", work, apply=lambda images: self._show(told, images), shown=False)

    def _style(self) -> Style:
        from stemmap.drawing.diagrams import Style

        colour = self.palette().color
        return Style(
            ink=colour(QPalette.ColorRole.WindowText).name(),
            soft=colour(QPalette.ColorRole.PlaceholderText).name(),
            line=colour(QPalette.ColorRole.Highlight).name(),
            ground=None,
            letters=max(self.fontInfo().pixelSize() * 0.85, 9.0),
            mark=QLocale().decimalPoint(),
        )

    def _show(self, told: Told, images: Sequence[QImage]) -> None:
        if told is not self.told:
            return
        for picture, image in zip(self.pictures, images, strict=True):
            picture.setPixmap(QPixmap.fromImage(image))
            picture.setFixedHeight(round(image.height() / image.devicePixelRatio()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the diagrams to the new width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._wait.start()

    def showEvent(self, event: QShowEvent) -> None:
        """Compute and draw what came while nobody could see it."""
        super().showEvent(event)
        self.come_into_sight()

    def changeEvent(self, event: QEvent) -> None:
        """Suit the diagrams to other colours or letters."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange) and hasattr(self, "_wait"):
            self._wait.start()


def _tell(summary: Summary, visit: int, progress: Progress) -> Told:
    """Compare one visit, or the last visits of all plots, with chance."""
    from stemmap.drawing.diagrams import diagrams_of, worded_diagram
    from stemmap.survey.profiles import profiles
    from stemmap.survey.structure import last_visits, structure

    rows = last_visits(summary) if visit == WHOLE_SURVEY else [visit]
    result = structure(summary, by_species=True, by_size=True, rows=rows, progress=progress)
    made, *large = [
        one.pooled if visit == WHOLE_SURVEY else one.plots[0] for one in (result, result.large) if one is not None
    ]
    strata = result.strata if visit == WHOLE_SURVEY else ()
    diagrams = diagrams_of(made.curves, profiles(summary, rows), species=made.species, sizes=made.sizes,
                           large=large[0].curves if large else None)  # fmt: skip
    return Told(summary, visit, made, strata, tuple(worded_diagram(one, worded) for one in diagrams))


def _image(diagram: Diagram, style: Style, width: int, ratio: float) -> QImage:
    """A diagram as a picture; 72 dots to the inch, so that a point is one unit of the window."""
    from stemmap.drawing.diagrams import draw

    inch = 25.4 / 72.0
    drawn = draw(
        [diagram], "png", style=style, size_mm=(width * inch, _SHAPE * width * inch), dpi=72.0 * ratio, titled=False
    )
    image = QImage.fromData(drawn)
    image.setDevicePixelRatio(ratio)
    return image
