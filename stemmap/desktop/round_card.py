"""The card of the round: a finding in words beside the stem it speaks of, on top of the map."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QLineF, QObject, QPoint, QPointF, QRect, QSize, Qt, Slot
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QRegion,
)
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from stemmap.desktop.decision_words import decision_sentence
from stemmap.desktop.map_canvas import MapCanvas
from stemmap.desktop.palettes import severity_colour
from stemmap.desktop.round import Round
from stemmap.desktop.sentences import (
    evidence_lines,
    finding_place,
    finding_remainder,
    severity_word,
    strikes,
    visit_name,
)
from stemmap.desktop.session import Session

if TYPE_CHECKING:
    from collections.abc import Iterable

    import numpy as np
    from numpy.typing import NDArray

    from stemmap.survey.finding import Finding

_MARGIN = 12
#: Free ground between the ring around a stem and the card.
_GAP = 34


class RoundCard(QFrame):
    """One finding, or the word that the round is through; as wide as is good to read."""

    def __init__(self, canvas: QWidget) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self.setObjectName("round-card")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        self._severity = "note"
        self.heading, self.progress, self.sentence, self.evidence = QLabel(), QLabel(), QLabel(), QLabel()
        self.remainder, self.decision, self.keys = QLabel(), QLabel(), QLabel()
        strong = self.heading.font()
        strong.setBold(True)
        self.heading.setFont(strong)
        slanted = self.decision.font()
        slanted.setItalic(True)
        self.decision.setFont(slanted)
        self.decisions = QHBoxLayout()
        layout = self._column = QVBoxLayout(self)
        layout.setContentsMargins(_MARGIN + 4, _MARGIN - 2, _MARGIN, _MARGIN - 2)
        layout.setSpacing(5)
        for part in (self.progress, self.heading, self.sentence, self.evidence, self.remainder, self.decision):
            layout.addWidget(part)
        layout.addLayout(self.decisions)
        layout.addWidget(self.keys)
        self.evidence.setWordWrap(True)
        for label in (self.heading, self.progress, self.sentence, self.remainder, self.decision, self.keys):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        for faint in (self.progress, self.keys):
            faint.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.hide()

    def tell(self, told: Finding, progress: str, decision: str = "") -> None:
        """Show a finding, and what was decided on it."""
        self._severity = told.severity
        self._fill(
            heading=f"{severity_word(told.severity)} · {finding_place(told)}",
            progress=progress,
            sentence=told.message,
            remainder=finding_remainder(told),
            decision=decision,
            keys=self._keys_for(told),
            evidence=evidence_lines(told),
        )

    def _keys_for(self, told: Finding) -> str:
        going = self.tr("Space goes on, Backspace goes back, Esc ends the round.")
        corrects = bool(told.proposals or told.meant)
        likeliest = max(told.proposals, key=lambda each: each["probability"] or 0.0, default=None)
        if told.strikes_all:
            own = self.tr("C strikes the records, K keeps, R sends the crew.")
        elif likeliest is not None and strikes(likeliest["field"], likeliest["value"]):
            own = self.tr("C strikes the record, K keeps, R sends the crew.")
        elif told.stem is None or told.field is None:
            without = self.tr("K keeps, R sends the crew.")
            own = self.tr("C corrects, K keeps, R sends the crew.") if corrects else without
        elif corrects:
            own = self.tr("C corrects, E gives another value, K keeps, R sends the crew.")
        else:
            own = self.tr("E gives another value, K keeps, R sends the crew.")
        return f"{own}\n{going}"

    def tell_end(self, heading: str, sentence: str, keys: str = "") -> None:
        """Say that there is nothing here, or nothing further."""
        self._severity = "note"
        self._fill(heading=heading, sentence=sentence, keys=keys or self.tr("Backspace goes back, Esc ends the round."))

    def _fill(
        self,
        *,
        heading: str,
        sentence: str,
        keys: str,
        progress: str = "",
        remainder: str = "",
        decision: str = "",
        evidence: Iterable[tuple[str, str]] = (),
    ) -> None:
        texts = (heading, progress, sentence, remainder, decision, keys)
        labels = (self.heading, self.progress, self.sentence, self.remainder, self.decision, self.keys)
        for label, text in zip(labels, texts, strict=True):
            label.setText(text)
            label.setVisible(bool(text))
        rows = "".join(f"<tr><td>{escape(name)}</td><td>{escape(value)}</td></tr>" for name, value in evidence)
        self.evidence.setText(f"<table cellpadding='1' cellspacing='3'>{rows}</table>")
        self.evidence.setVisible(bool(rows))
        self.setAccessibleName(heading)
        self.setAccessibleDescription(" ".join(text for text in (progress, sentence, remainder, decision) if text))
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, f"{heading}. {sentence}"))
        width = min(44 * self.fontMetrics().averageCharWidth(), max(self._canvas.width() - 2 * _MARGIN, 200))
        self._column.activate()
        height = self._column.totalHeightForWidth(width)
        if height > self._canvas.height() - 2 * _MARGIN:
            # With large letters in a small window the sentence alone has the figures that matter.
            self.evidence.hide()
            self._column.activate()
            height = self._column.totalHeightForWidth(width)
        self.resize(width, height)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the edge in the colour of the severity, which the heading says in words."""
        super().paintEvent(event)
        QPainter(self).fillRect(QRect(0, 0, 4, self.height()), severity_colour(self._severity, self.palette()))


class Leader(QWidget):
    """A thin line from the card to its stem; it lets the pointer through to the map."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._line, self._words = QLineF(), QRegion()
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()

    def show_line(self, line: QLineF, words: QRegion) -> None:
        """Show another line, which leaves out the words it would run through."""
        self._line, self._words = line, words
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the line."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setClipRegion(QRegion(self.rect()) - self._words)
        for role, width in ((QPalette.ColorRole.Base, 4.0), (QPalette.ColorRole.Highlight, 1.5)):
            painter.setPen(QPen(self.palette().color(role), width))
            painter.drawLine(self._line)


class RoundView(QObject):
    """Lays the card of the round beside the stem it speaks of, as long as the round lasts."""

    def __init__(self, canvas: MapCanvas, session: Session, going: Round, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._canvas, self._session, self._round = canvas, session, going
        self._leader = Leader(canvas)
        self.card = RoundCard(canvas)
        canvas.installEventFilter(self)
        canvas.moved.connect(self._on_moved)
        canvas.described.connect(self._on_moved)
        going.changed.connect(self._on_changed)

    @Slot()
    def _on_changed(self) -> None:
        if not self._round.active:
            self.card.hide()
            self._leader.hide()
            return
        told = self._round.finding
        if told is not None:
            workup = self._session.workup
            entry = None if workup is None else workup.survey.decisions.standing.get(told.id)
            self.card.tell(told, self._progress(), "" if entry is None else decision_sentence(entry))
        elif not self._round.is_through:
            workup = self._session.workup
            self.card.tell_end(
                "" if workup is None else visit_name(workup, self._session.visit),
                self.tr("No error and nothing to look at was found here."),
                self.tr("Space goes on with the next plot, Backspace goes back, Esc ends the round."),
            )
        elif len(self._round.queue):
            self.card.tell_end(
                self.tr("Looked through"),
                self.tr("The round is through: there is nothing further to look at in this survey."),
            )
        else:
            self.card.tell_end(self.tr("Nothing to look at"), self.tr("No error and nothing to look at was found."))
        self.card.show()
        self.card.raise_()
        self._on_moved()

    def _progress(self) -> str:
        workup, told, stage = self._session.workup, self._round.finding, self._round.stage
        if workup is None or told is None or stage is None:
            return ""
        if stage.plot == 0:
            words = self.tr("about the files, finding {finding} of {findings}")
        else:
            words = self.tr("{plot}: plot {number} of {plots}, finding {finding} of {findings}")
        return words.format(
            plot=visit_name(workup, told.visit_row),
            number=stage.plot,
            plots=stage.plots,
            finding=stage.finding,
            findings=stage.findings,
        )

    @Slot()
    def _on_moved(self) -> None:
        """Put the card where it covers neither its stem nor, if it can be, other stems."""
        if not self._round.active:
            return
        told, canvas, size = self._round.finding, self._canvas, self.card.size()
        stem = told.stem_row if told is not None else -1
        at = canvas.place_of(stem)
        if at is None or not canvas.rect().contains(at.toPoint()):
            self.card.move(max(canvas.width() - size.width() - _MARGIN, 0), _MARGIN)
            self._leader.hide()
            return
        reach = canvas.reach_of(stem)
        corner = beside(at, reach + _GAP, size, canvas.size(), self._in_sight())
        self.card.move(corner)
        self._leader.setGeometry(canvas.rect())
        card = QRect(corner, size)
        end = QPointF(min(max(at.x(), card.left()), card.right()), min(max(at.y(), card.top()), card.bottom()))
        line = QLineF(at, end)
        line.setP1(line.pointAt(min(reach / max(line.length(), 1.0), 1.0)))
        self._leader.show_line(line, canvas.words_near(at, reach + line.length()))
        self._leader.show()
        self._leader.stackUnder(self.card)

    def _in_sight(self) -> NDArray[np.float64]:
        """Places on the map that should stay in sight: its stems, and more so where this one is proposed to stand."""
        import numpy as np

        from stemmap.drawing.doubts import ghosts_of
        from stemmap.drawing.ground import to_grid

        workup, shown, told = self._session.workup, self._canvas.shown, self._round.finding
        places = np.zeros((0, 2))
        if workup is None or shown is None or shown.scene.stems is None or told is None:
            return places
        turn = float(to_grid(workup.survey, workup.measured, told.visit_row, 0.0))
        ghosts = ghosts_of(workup.survey, workup.measured, [told], turn_deg=turn, reach_m=np.inf)
        proposed = np.repeat(np.reshape([ghost.place for ghost in ghosts], (-1, 2)), 50, axis=0)
        return self._canvas.to_device(np.concatenate([shown.scene.stems.place, proposed]))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the size of the map."""
        if watched is self._canvas and event.type() == QEvent.Type.Resize and self._round.active:
            self._on_changed()
        return False


def beside(at: QPointF, gap: float, card: QSize, room: QSize, others: NDArray[np.float64]) -> QPoint:
    """Upper left corner for a card of a size beside a point.

    Parameters
    ----------
    at
        The point that must stay in sight.
    gap
        Least distance between the point and the card.
    card, room
        Sizes of the card and of the ground it may lie on.
    others
        Places that should stay in sight too, shape (n, 2): the fewest of them are covered.
    """
    width, height = card.width(), card.height()
    best, least = QPoint(0, 0), float("inf")
    for x, y in _corners(at, gap, width, height):
        left = min(max(x, 0.0), max(room.width() - width, 0.0))
        top = min(max(y, 0.0), max(room.height() - height, 0.0))
        inside = left - gap < at.x() < left + width + gap and top - gap < at.y() < top + height + gap
        under = (others >= (left, top)) & (others <= (left + width, top + height))
        cost = int(under.all(axis=1).sum()) + (10_000.0 if inside else 0.0) + 0.01 * (abs(left - x) + abs(top - y))
        if cost < least:
            best, least = QPoint(round(left), round(top)), cost
    return best


def _corners(at: QPointF, gap: float, width: int, height: int) -> Iterable[tuple[float, float]]:
    """Corners to try: right and left of the point at several heights, then above and below at several offsets."""
    for x in (at.x() + gap, at.x() - gap - width):
        for share in (0.5, 0.2, 0.8, 0.0, 1.0):
            yield x, at.y() - share * height
    for y in (at.y() + gap, at.y() - gap - height):
        for share in (0.5, 0.2, 0.8, 0.0, 1.0):
            yield at.x() - share * width, y
