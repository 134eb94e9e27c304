"""Diagrams of spatial structure, drawn by matplotlib, byte for byte the same from the same input."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from io import BytesIO
from typing import TYPE_CHECKING, Any, Literal

from stemmap.core.neighbours import FEWEST_STEMS
from stemmap.drawing.palette import SPECIES_FILLS
from stemmap.survey.curves import SIGNIFICANT, Curve
from stemmap.survey.profiles import Profile

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Titles, and words at the axes, by name.
WORDS: Mapping[str, tuple[str, str, str]] = {
    "l_minus_r": ("Clumped or regular: L(r) - r", "distance r, m", "L(r) - r, m"),
    "g": ("Pairs of stems by distance: g(r)", "distance r, m", "times chance"),
    "mark_correlation": ("Thickness of neighbours: mark correlation of dbh", "distance r, m", "times average"),
    "mark_variogram": ("Likeness of neighbours: mark variogram of dbh", "distance r, m", "times average"),
    "nearest": ("Distance to the nearest stem: G(r)", "distance r, m", "share of stems"),
    "dbh": ("Dbh by species", "dbh, cm", "number of stems"),
    "azimuth": ("Stems by azimuth", "grid azimuth, degrees", "number of stems"),
    "distance": ("Stems from the centre outwards", "share of the area, from the centre", "number of stems"),
}


#: Stands between the names of two kinds of stems.
_TWO = " × "


@dataclass(frozen=True)
class Style:
    """Colours "#rrggbb" of letters, of what stands behind, and of the line; letters, points; the decimal mark."""

    ink: str
    soft: str
    line: str
    ground: str | None
    letters: float
    mark: str = "."


PAPER = Style(ink="#000000", soft="#4f5652", line="#0072b2", ground="#ffffff", letters=8.0)


@dataclass(frozen=True)
class Diagram:
    """One curve or profile with its words.

    Parameters
    ----------
    name
        Key of `WORDS`, "species" or "size" and its name, or "large".
    title, x_label, y_label, sentence
        Words around it, in the language wanted.
    content
        What is drawn.
    """

    name: str
    title: str
    x_label: str
    y_label: str
    sentence: str
    content: Curve | Profile


def diagrams_of(
    curves: Mapping[str, Curve],
    profiles: Mapping[str, Profile],
    *,
    species: Mapping[str, Curve] | None = None,
    sizes: Mapping[str, Curve] | None = None,
    large: Mapping[str, Curve] | None = None,
) -> list[Diagram]:
    """The diagrams of a plot or survey in the order in which they are read, with English words.

    Of pairs of species, named "one × other", only those that stand out are drawn, and it is said of how many. Of the
    large stems of an outer circle it is L(r) - r.
    """
    contents: dict[str, Curve | Profile] = {**curves, **profiles}
    made = [
        Diagram(name, title, x_label, y_label, contents[name].sentence, contents[name])
        for name, (title, x_label, y_label) in WORDS.items()
        if name in contents
    ]
    _, x_label, y_label = WORDS["l_minus_r"]
    parts = []
    for kind, of_kind in (("size", sizes or {}), ("species", species or {})):
        pairs = sum(_TWO in name for name in of_kind)
        for name, curve in of_kind.items():
            told = curve.sentence
            if _TWO in name and pairs > 1:
                if curve.p is None or curve.p >= SIGNIFICANT or curve.stems < FEWEST_STEMS:
                    continue
                compared = (
                    f"Of the {pairs} pairs of species that were compared chance alone would make one in twenty "
                    "stand out"
                )
                told = f"{told} {compared}."
            parts.append(Diagram(f"{kind} {name}", _part_title(kind, name), x_label, y_label, told, curve))
    if large and "l_minus_r" in large:
        curve = large["l_minus_r"]
        parts.insert(0, Diagram("large", "Large stems of the outer circle", x_label, y_label, curve.sentence, curve))
    return made + parts


def _part_title(kind: str, name: str) -> str:
    if kind == "size":
        return {"thick": "The thicker half of the stems", "thin": "The thinner half of the stems"}.get(
            name, "Thick and thin stems"
        )
    one, two, other = name.partition(_TWO)
    return f"Two species: {one} and {other}" if two else f"Among the other stems: {name}"


def worded_diagram(one: Diagram, words: Callable[[str], str]) -> Diagram:
    """A diagram with its English words in another language."""
    return replace(
        one,
        title=words(one.title),
        x_label=words(one.x_label),
        y_label=words(one.y_label),
        sentence=words(one.sentence),
    )


def draw(
    diagrams: Sequence[Diagram],
    form: Literal["svg", "png", "pdf"],
    *,
    style: Style = PAPER,
    size_mm: tuple[float, float] = (85.0, 55.0),
    columns: int = 1,
    dpi: float = 200.0,
    titled: bool = True,
) -> bytes:
    """Draw diagrams in one picture.

    Parameters
    ----------
    size_mm
        Width and height of each diagram.
    columns
        How many stand side by side.
    dpi
        Of a PNG.
    titled
        Whether each carries its title.
    """
    import matplotlib as mpl
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    rows = -(-len(diagrams) // columns)
    size = (columns * size_mm[0] / 25.4, rows * size_mm[1] / 25.4)
    # Not rc_context: other threads draw at the same time, and these two are wanted by all of them.
    mpl.rcParams["svg.hashsalt"], mpl.rcParams["svg.fonttype"] = "stemmap", "path"
    figure = Figure(figsize=size, layout="constrained", facecolor=style.ground or "none")
    FigureCanvasAgg(figure)
    for place, diagram in enumerate(diagrams):
        axes = figure.add_subplot(rows, columns, place + 1)
        if isinstance(diagram.content, Curve):
            _draw_curve(axes, diagram.content, style)
        else:
            _draw_profile(axes, diagram.content, style)
        _dress(axes, diagram, style, titled=titled)
    stream = BytesIO()
    unstamped: dict[str, Any] = {
        "svg": {"Date": None, "Creator": None},
        "pdf": {"CreationDate": None, "Creator": None, "Producer": None},
        "png": {"Software": None},
    }
    figure.savefig(stream, format=form, dpi=dpi, metadata=unstamped[form])
    return stream.getvalue()


def _draw_curve(axes: Axes, curve: Curve, style: Style) -> None:
    if curve.low is not None and curve.high is not None:
        axes.fill_between(curve.r, curve.low, curve.high, color=style.soft, alpha=0.3, linewidth=0.0)
    axes.plot(curve.r, curve.chance, color=style.soft, linewidth=0.9, linestyle=(0, (4, 2)))
    axes.plot(curve.r, curve.value, color=style.line, linewidth=1.6)
    axes.set_xlim(0.0, float(curve.r[-1]))


def _draw_profile(axes: Axes, profile: Profile, style: Style) -> None:
    width = profile.edges[1:] - profile.edges[:-1]
    below = 0.0 * width
    for place, (name, counts) in enumerate(profile.counts.items()):
        fill = SPECIES_FILLS[place % len(SPECIES_FILLS)] if name else style.line
        axes.bar(
            profile.edges[:-1] + 0.05 * width,
            counts,
            width=0.9 * width,
            bottom=below,
            align="edge",
            color=fill,
            label=name,
            edgecolor=style.ink,
            linewidth=0.4,
            hatch=("", "///", "...", "\\\\\\", "xx", "++")[place % 6],
        )
        below = below + counts
    if profile.expected is not None:
        axes.axhline(profile.expected, color=style.soft, linewidth=0.9, linestyle=(0, (4, 2)))
    if "" not in profile.counts:
        axes.legend(frameon=False, fontsize=0.9 * style.letters, labelcolor=style.ink)
    axes.set_xlim(float(profile.edges[0]), float(profile.edges[-1]))


def _tick(value: float, mark: str) -> str:
    """A number at an axis, with the decimal mark and a minus as long as a plus."""
    return f"{value:.6g}".replace("-", "\N{MINUS SIGN}").replace(".", mark)


def _dress(axes: Axes, diagram: Diagram, style: Style, *, titled: bool) -> None:
    from matplotlib.ticker import FuncFormatter, MaxNLocator

    axes.patch.set_alpha(0.0)
    if titled:
        axes.set_title(diagram.title, color=style.ink, fontsize=style.letters, loc="left")
    axes.set_xlabel(diagram.x_label, color=style.ink, fontsize=style.letters)
    axes.set_ylabel(diagram.y_label, color=style.ink, fontsize=style.letters)
    axes.tick_params(colors=style.ink, labelsize=style.letters, length=3)
    if diagram.name == "azimuth":
        axes.set_xticks(range(0, 361, 90))
    else:
        axes.xaxis.set_major_locator(MaxNLocator(6, steps=[1, 2, 5, 10]))
    for axis in (axes.xaxis, axes.yaxis):
        axis.set_major_formatter(FuncFormatter(lambda value, _place: _tick(value, style.mark)))
    axes.yaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10], integer=isinstance(diagram.content, Profile)))
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(style.soft)
