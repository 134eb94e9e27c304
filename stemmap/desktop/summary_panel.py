"""What the selected plot says per hectare, with reasons for what cannot be known; the estimates of the survey."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Slot
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPalette, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QGridLayout,
    QLabel,
    QScrollArea,
    QStackedWidget,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.estimates_view import EstimatesView
from stemmap.desktop.histogram import HistogramRequest, draw_histogram
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.raised import in_sight
from stemmap.desktop.sentences import number, visit_name
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.wording import worded

#: More lines than this are never useful in the panel; the command line writes all.
_MOST_STRATA = 200
#: Height of the table of strata, from which on it is scrolled.
_HIGHEST_TABLE = 260


class HistogramView(QWidget):
    """Shows the dbh histogram; asks for a new one when data, size or colours change.

    Parameters
    ----------
    jobs
        Run the drawing.
    seen
        Tells whether the panel around it is in sight; it may be scrolled out of sight itself.
    """

    def __init__(self, jobs: Jobs, seen: Callable[[], bool], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._jobs, self._seen = jobs, seen
        self._classes: tuple[tuple[float, ...], tuple[float, ...]] = ((), ())
        self._image: QImage | None = None
        self._wait = QTimer(self, interval=20, singleShot=True)
        self._wait.timeout.connect(self._on_wanted)
        self.setMinimumHeight(150)
        self.setAccessibleName(self.tr("Histogram of dbh"))

    @property
    def image(self) -> QImage | None:
        """The picture shown, None while there is none."""
        return self._image

    def show_classes(self, edges_cm: tuple[float, ...], stems_per_ha: tuple[float, ...]) -> None:
        """Show another distribution; without classes nothing."""
        self._classes = (edges_cm, stems_per_ha)
        told = [
            self.tr("{low} to {high} cm: {count} stems/ha").format(
                low=number(low, 0), high=number(high, 0), count=number(count, 0)
            )
            for low, high, count in zip(edges_cm, edges_cm[1:], stems_per_ha, strict=False)
            if count
        ]
        self.setAccessibleDescription("; ".join(told))
        self.setToolTip("\n".join(told))
        self.setVisible(bool(told))
        self._wait.start()

    def draw_soon(self) -> None:
        """Draw anew what is shown, once nothing more comes at the same time."""
        self._wait.start()

    @Slot()
    def _on_wanted(self) -> None:
        edges, counts = self._classes
        if not edges or not self._seen() or not self.isVisible() or self.width() < 80:
            return
        last = max(place for place, count in enumerate(counts) if count) + 1
        ink = self.palette().color(QPalette.ColorRole.WindowText).name()
        fill = self.palette().color(QPalette.ColorRole.Highlight).name()
        request = HistogramRequest(
            edges_cm=edges[: last + 1],
            stems_per_ha=counts[:last],
            ink=ink,
            fill=fill,
            width=self.width(),
            height=self.height(),
            pixel_ratio=self.devicePixelRatioF(),
            font_pixels=max(self.fontInfo().pixelSize() * 0.85, 9.0),
            x_label=self.tr("dbh, cm"),
            y_label=self.tr("stems/ha"),
        )
        self._jobs.start("histogram", lambda progress: draw_histogram(request, progress), apply=self._show, shown=False)

    def _show(self, image: QImage) -> None:
        self._image = image
        self.update()

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        return QSize(280, 170)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the picture."""
        if self._image is not None:
            QPainter(self).drawImage(self.rect(), self._image)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Suit the picture to the new size."""
        super().resizeEvent(event)
        self._wait.start()

    def showEvent(self, event: QShowEvent) -> None:
        """Draw what was left undrawn while nobody could see it."""
        super().showEvent(event)
        self._wait.start()

    def changeEvent(self, event: QEvent) -> None:
        """Suit the picture to other colours or letters."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._wait.start()


class SummaryPanel(QScrollArea):
    """Follows the selected visit."""

    def __init__(self, session: Session, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAccessibleName(self.tr("Summary"))
        self.values: dict[str, QLabel] = {}
        self.histogram = HistogramView(jobs, lambda: in_sight(self))
        self.estimates = EstimatesView(jobs, lambda: in_sight(self) and self._session.visit == WHOLE_SURVEY)
        self.strata = self._strata_table()
        self._heading = QLabel()
        self._heading.setWordWrap(True)
        font = self._heading.font()
        font.setBold(True)
        self._heading.setFont(font)
        self.reasons = QLabel()
        self.reasons.setWordWrap(True)
        self._pages = QStackedWidget()
        self._pages.addWidget(self._plot_page())
        self._pages.addWidget(self._survey_page())
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(10, 8, 10, 10)
        layout.addWidget(self._heading)
        layout.addWidget(self._pages, 1)
        self.setWidget(page)
        session.replaced.connect(self._on_visit_selected)
        session.visit_selected.connect(self._on_visit_selected)

    @Slot()
    def come_into_sight(self) -> None:
        """Compute and draw what came while nobody could see it."""
        self.histogram.draw_soon()
        self.estimates.begin()

    def showEvent(self, event: QShowEvent) -> None:
        """Compute and draw what came while nobody could see it."""
        super().showEvent(event)
        self.come_into_sight()

    def _plot_page(self) -> QWidget:
        page = QWidget()
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(5)
        grid.setColumnStretch(1, 1)
        for row, (name, label, meaning) in enumerate(self._rows()):
            value = QLabel("–")
            value.setWordWrap(True)
            value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            value.setAccessibleName(label)
            heading = QLabel(label)
            heading.setToolTip(meaning)
            value.setToolTip(meaning)
            grid.addWidget(heading, row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(value, row, 1)
            self.values[name] = value
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.reasons)
        layout.addLayout(grid)
        layout.addSpacing(8)
        layout.addWidget(self.histogram)
        layout.addStretch(1)
        return page

    def _survey_page(self) -> QWidget:
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.strata)
        layout.addWidget(self.estimates)
        layout.addStretch(1)
        return page

    def _rows(self) -> tuple[tuple[str, str, str], ...]:
        return (
            (
                "counts",
                self.tr("Living stems"),
                self.tr("Recorded, in the sample, and too close to the limit to be decided"),
            ),
            ("stems_per_ha", self.tr("Stems/ha"), self.tr("Living stems per hectare")),
            ("basal_area_m2_per_ha", self.tr("Basal area"), self.tr("Of living stems, square metres per hectare")),
            ("qmd_cm", self.tr("Mean diameter"), self.tr("Quadratic mean diameter of living stems")),
            ("dead", self.tr("Dead"), self.tr("Dead stems per hectare and their basal area")),
            ("mean_nearest_m", self.tr("Nearest stem"), self.tr("Mean distance from a stem to its nearest stem")),
            (
                "clark_evans",
                self.tr("Clark-Evans R"),
                self.tr("1 at random, below clumped, above regular; with Donnelly's edge correction in the disc"),
            ),
            ("uniform_angle", self.tr("Uniform angle"), self.tr("About 0.5 at random, below regular, above clumped")),
            (
                "mingling",
                self.tr("Mingling"),
                self.tr("Mean share of the four nearest stems that are of another species"),
            ),
            ("species", self.tr("Species"), self.tr("Stems per hectare by species")),
        )

    def _strata_table(self) -> QTableWidget:
        table = QTableWidget(0, 5)
        table.setHorizontalHeaderLabels(
            [self.tr("Stratum"), self.tr("Visit"), self.tr("Plots"), self.tr("Stems/ha"), self.tr("m²/ha")]
        )
        table.setAccessibleName(self.tr("Strata of the survey"))
        table.setToolTip(self.tr("Mean ± standard error, each line as a simple random sample of its own"))
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setTabKeyNavigation(False)
        table.verticalHeader().hide()
        table.verticalHeader().setMinimumSectionSize(table.fontMetrics().height() + 6)
        table.verticalHeader().setDefaultSectionSize(table.fontMetrics().height() + 8)
        table.setShowGrid(False)
        return table

    @Slot()
    def _on_visit_selected(self) -> None:
        opened, visit = self._session.opened, self._session.visit
        if opened is None:
            return
        self._heading.setText(visit_name(opened.workup, visit))
        if visit == WHOLE_SURVEY:
            self._show_strata(opened.strata)
            self._pages.setCurrentIndex(1)
            self.estimates.tell(opened.workup.summary)
            return
        self._pages.setCurrentIndex(0)
        self._show_plot(opened.workup.summary.plot_json(visit))

    def _show_plot(self, told: dict[str, Any]) -> None:
        reasons: dict[str, str] = told["reasons"]
        unknown: dict[str, list[str]] = {}

        def value(name: str, decimals: int, unit: str) -> str:
            part: Any = told
            for step in name.split("."):
                part = part[step]
            if part is None:
                reason = worded(reasons.get(name, "")) or self.tr("no reason given")
                unknown.setdefault(reason, []).append(self.values[name.partition(".")[0]].accessibleName())
                return self.tr("not known")
            return f"{number(part, decimals)} {unit}".strip()

        texts = {
            "counts": self._count_words(told),
            "stems_per_ha": value("stems_per_ha", 0, ""),
            "basal_area_m2_per_ha": value("basal_area_m2_per_ha", 2, "m²/ha"),
            "qmd_cm": value("qmd_cm", 1, "cm"),
            "dead": self._dead_words(told["dead"]),
            "mean_nearest_m": value("mean_nearest_m", 2, "m"),
            "clark_evans": value("clark_evans.r", 2, ""),
            "uniform_angle": value("uniform_angle", 2, ""),
            "mingling": value("mingling", 2, ""),
            "species": self._species_words(told["species"]),
        }
        index = told["clark_evans"]
        if index["r"] is not None:
            texts["clark_evans"] += " ({})".format(
                ", ".join(
                    [
                        f"z {number(index['z'], 2)}" if index["z"] is not None else "z –",
                        f"p {number(index['p'], 3)}" if index["p"] is not None else "p –",
                        f"n {index['n']}",
                        *([index["note"]] if index["note"] else []),
                    ]
                )
            )
        for name in ("uniform_angle", "mingling"):
            if told[name] is not None:
                texts[name] += f" (n {told[f'{name}_n']})"
        for name, text in texts.items():
            self.values[name].setText(text)
        self.reasons.setText(
            " ".join(
                self.tr("{names} not known: {reason}.").format(names=", ".join(names), reason=reason)
                for reason, names in unknown.items()
            )
        )
        self.reasons.setVisible(bool(unknown))
        classes = told["dbh_classes"] or {"edges_cm": [], "stems_per_ha": []}
        self.histogram.show_classes(tuple(classes["edges_cm"]), tuple(classes["stems_per_ha"]))

    def _count_words(self, told: dict[str, Any]) -> str:
        if told["in"] is None:
            return self.tr("{n} recorded").format(n=told["stems"])
        return self.tr("{n} recorded, {inside} in, {borderline} borderline").format(
            n=told["stems"], inside=told["in"], borderline=told["borderline"]
        )

    def _dead_words(self, dead: dict[str, Any]) -> str:
        if not dead["in"]:
            return self.tr("none") if dead["in"] == 0 else self.tr("not known")
        area = dead["basal_area_m2_per_ha"]
        return self.tr("{stems} stems/ha, {area} m²/ha").format(
            stems=number(dead["stems_per_ha"] if dead["stems_per_ha"] is not None else float("nan"), 0),
            area=number(area if area is not None else float("nan"), 2),
        )

    def _species_words(self, species: list[dict[str, Any]] | None) -> str:
        if not species:
            return "–"
        most = sorted(species, key=lambda one: -(one["stems_per_ha"] or 0.0))
        return ", ".join(
            f"{one['species'] or self.tr('not said')} {number(one['stems_per_ha'] or 0.0, 0)}" for one in most
        )

    def _show_strata(self, strata: tuple[dict[str, Any], ...]) -> None:
        self.histogram.show_classes((), ())
        shown = strata[:_MOST_STRATA]
        self.strata.setRowCount(len(shown))
        for row, told in enumerate(shown):
            cells = [
                told["stratum"] or self.tr("all"),
                told["visit"] or self.tr("last"),
                str(told["plots"]),
                self._estimate_words(told["stems_per_ha"], 0),
                self._estimate_words(told["basal_area_m2_per_ha"], 1),
            ]
            for column, text in enumerate(cells):
                self.strata.setItem(row, column, QTableWidgetItem(text))
        self.strata.resizeColumnsToContents()
        lines = self.strata.verticalHeader().length() + self.strata.horizontalHeader().sizeHint().height()
        # Room for the bar below too: with it, lines must not have to be scrolled.
        bar = self.strata.horizontalScrollBar().sizeHint().height()
        self.strata.setFixedHeight(min(lines + bar + 2 * self.strata.frameWidth(), _HIGHEST_TABLE))

    def _estimate_words(self, told: dict[str, Any], decimals: int) -> str:
        if told["mean"] is None:
            return told["reason"] or "–"
        error = told["standard_error"]
        return number(told["mean"], decimals) + (f" ± {number(error, decimals)}" if error is not None else "")
