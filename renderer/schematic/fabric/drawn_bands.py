"""Runs of rows that are drawn as one: bands, neighbours merged where they are too thin to be distinguished."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.phrases import stitch_name
from halfhank.model.shawl import BandPlan, Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.measure_words import exact_mass, row_range, stitches
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

THINNEST_MM = 0.3
STRIPS = 100


class DrawnBand(NamedTuple):
    """Rows `first`…`last` of one band or of several thin ones."""

    first: int
    last: int
    bands: tuple[BandPlan, ...]

    def title(self, unit: str) -> str:
        """What hovering shows: rows, fabric, stitches at the end, the yarn's mass in g or oz."""
        names = list(dict.fromkeys(fabric_words(band) for band in self.bands))
        label = self.bands[0].label if len(self.bands) == 1 else None
        mass = exact_mass(sum(band.used_g for band in self.bands), unit)
        rows, count = row_range(self.first, self.last), stitches(self.bands[-1].stitches_at_end)
        worked = ", ".join(names)
        if label:
            return phrase("band.labelled", rows=rows, stitches=worked, label=label, count=count, mass=mass)
        return phrase("band.title", rows=rows, stitches=worked, count=count, mass=mass)


class ColourStrip(NamedTuple):
    """Rows between two boundaries in one colour; `reach` is the boundary up to which it runs on under its successor."""

    first: int
    last: int
    reach: int
    share: float


def fabric_words(band: BandPlan) -> str:
    """`garter`, or `drop stitch, 2 wraps`."""
    name = stitch_name(band.stitch)
    return phrase("band.wraps", stitch=name, wraps=str(band.wraps)) if band.wraps > 1 else name


def spans_of(piece: DrawnPiece) -> list[DrawnBand]:
    """The bands in working order, thin neighbours merged until they are 0.3 mm high on paper."""
    spans: list[DrawnBand] = []
    waiting: list[BandPlan] = []
    for band in piece.shawl.bands:
        waiting.append(band)
        if sum(b.height_cm for b in waiting) * piece.mm >= THINNEST_MM:
            spans.append(DrawnBand(waiting[0].first_row, band.last_row, tuple(waiting)))
            waiting = []
    if waiting:
        first = spans.pop() if spans else None
        bands = (*(first.bands if first else ()), *waiting)
        spans.append(DrawnBand(bands[0].first_row, bands[-1].last_row, bands))
    return spans


def share_at(shawl: Shawl, row: int) -> float:
    """Share of the shawl's own yarn, start and bind-off counted, that is used after a row."""
    return shawl.used_g[row] / shawl.yarn.total_g if shawl.yarn.total_g > 0 else 0.0


def strips_of(piece: DrawnPiece, span: DrawnBand) -> list[ColourStrip]:
    """The span in strips of about a hundredth of the yarn each, or a row where that is more."""
    shawl = piece.shawl
    strips: list[ColourStrip] = []
    first = span.first - 1
    for row in range(span.first, span.last + 1):
        step = share_at(shawl, row) - share_at(shawl, first)
        if row == span.last or step >= 1 / STRIPS:
            middle = share_at(shawl, first) + step / 2
            strips.append(ColourStrip(first, row, _reach(piece, row), middle))
            first = row
    return strips


def _reach(piece: DrawnPiece, row: int) -> int:
    """The boundary at least 0.2 mm on, where the piece goes so far: enough to hide the seam between two colours."""
    heights = piece.shawl.rows.height_cm
    reach, run = row, 0.0
    while reach < piece.last and run < 0.2:
        reach += 1
        run += heights[reach] * piece.mm
    return reach
