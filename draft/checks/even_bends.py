"""An edge bends evenly, as a cutter draws it: no step of its bend, no flat line with a sharp place, no end turned back.

What is drawn as one line is sewn as one: where it goes on over a seam, both pieces are laid together there.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import listed
from draft.base.notes import Note, caution
from draft.base.plainly import SMOOTH_IT, of_sizes
from draft.base.worst import worst_of
from draft.checks import dips
from draft.checks.fair_curves import beside_darts
from draft.garment.garment import Edge, Garment, Piece, SidePart
from draft.geometry.bending import Bending, bending, end_bends
from draft.geometry.cubic import dot
from draft.geometry.ends import end_directions
from draft.seams.walk import SeamEnd, handedness, seam_ends

STEP = 1 / 40  # 1/mm: from one curve into another
ONSET = 1 / 60  # 1/mm: from a straight line into a curve, where the eye is keenest
OVER_A_SEAM = 1 / 25  # 1/mm: the seam hides less; many a back neck of 3 cm runs into a front that is straight
BACK = np.radians(6)
BACK_FROM_A_FOLD = np.radians(2.5)  # seen twice: its mirror image lies beside it
SMOOTH = np.radians(10)
PEAK = 6.0  # mean bends: as of a quarter of an ellipse 2.9 times as long as wide
EVENLY = "let it bend evenly, as in `curve evenly`"


def check(garment: Garment) -> list[Note]:
    """Cautions for edges, and for lines over a seam, that do not bend evenly."""
    edges = [(piece, k) for piece in garment.pieces for k, edge in enumerate(piece.edges) if not edge.on_fold]
    notes = [note for piece, k in edges for note in _edge(garment, piece, k)]
    over = [note for seam_end in seam_ends(garment) if not seam_end.join.faced for note in _over(garment, seam_end)]
    return [*notes, *over]


def _edge(garment: Garment, piece: Piece, k: int) -> list[Note]:
    edge = piece.edges[k]
    if edge.cornered:
        return []
    found = [bending(part) for part in beside_darts(piece, edge)]
    name = f"`{piece.name}.{edge.name}`"
    notes = [*_steps(garment, edge, name, found), *_peaks(garment, edge, name, found)]
    if dips.on_edge(garment, piece, k):
        return notes  # that it turns back is told there, with what would help
    return [*notes, *_backs(garment, piece, k, name, found)]


def _steps(garment: Garment, edge: Edge, name: str, found: list[Bending]) -> list[Note]:
    step, onset = (np.max([getattr(one, part) for one in found], axis=0) for part in ("step", "onset"))
    off = np.where((step > STEP) | (onset > ONSET), np.maximum(step, onset), 0.0)
    if not np.any(off):
        return []
    fact = f"{name} begins to bend at once"
    figures = f"at worst as on a circle of {1 / off.max() / 10:.1f} cm"
    return [_note(garment, edge, fact, figures, EVENLY, off, name)]


def _peaks(garment: Garment, edge: Edge, name: str, found: list[Bending]) -> list[Note]:
    peak = np.max([one.peak for one in found], axis=0)
    off = np.where(peak > PEAK, peak, 0.0)
    if not np.any(off):
        return []
    figures = f"at worst it is {peak.max():.1f} times as sharp in one place as it is over all"
    fix = "give it more depth or less straight line there, or end the edge there in a corner"
    return [_note(garment, edge, f"{name} is flat and then sharp", figures, fix, off, name)]


def _backs(garment: Garment, piece: Piece, k: int, name: str, found: list[Bending]) -> list[Note]:
    edge, before, after = piece.edges[k], piece.edges[k - 1], piece.edges[(k + 1) % len(piece.edges)]
    most = BACK_FROM_A_FOLD if (before.on_fold or after.on_fold) and not edge.turned_up else BACK
    first = np.where(_goes_on(before, edge), 0.0, found[0].back[0])
    last = np.where(_goes_on(edge, after), 0.0, found[-1].back[1])
    at_darts = [one.back[0] for one in found[1:]] + [one.back[1] for one in found[:-1]]
    back = np.max([first, last, *at_darts], axis=0)
    off = np.where(back > most, back, 0.0)
    if not np.any(off):
        return []
    figures = f"at worst by {np.degrees(back.max()):.1f} deg"
    fix = "move its end, or turn the way in which it ends"
    return [_note(garment, edge, f"{name} bends back at its end", figures, fix, off, name)]


def _goes_on(edge: Edge, after: Edge) -> Bools:
    """Whose line goes on smoothly into the next edge, as an armhole into a raglan seam: no end to the eye `(B,)`."""
    arriving, leaving = end_directions(edge.segments)[1], end_directions(after.segments)[0]
    return np.asarray(dot(arriving, leaving) > np.cos(SMOOTH))


def _note(garment: Garment, edge: Edge, fact: str, figures: str, fix: str, off: Floats, name: str) -> Note:
    """Told of the bodies that are off by anything `(B,)`."""
    worst = garment.sizes[worst_of(off)]
    piece = name.strip("`").partition(".")[0]
    plainly = of_sizes("line_uneven", garment.sizes, off > 0, SMOOTH_IT, piece=piece, edge=edge.name)
    said = f"{fact}, for {listed(garment.sizes, off > 0)}"
    return caution(said, edge.span, f"{figures} ({worst})", fix, off=off, plainly=plainly)


def _over(garment: Garment, end: SeamEnd) -> list[Note]:
    """A line that goes on from piece to piece over a seam's end with another bend."""
    join = end.join
    sides = ((join.first[0], end.neighbours[0]), (join.second[0], end.neighbours[1]))
    bends = [_bend(garment, part, beside, end.at_start) for part, beside in sides]
    step = np.abs(bends[0] - bends[1])
    if not np.any(step > OVER_A_SEAM):
        return []
    names = " and ".join(f"`{part.piece}.{beside}`" for part, beside in sides)
    fact = f"{names} bend differently where `{join.name}` ends, for {listed(garment.sizes, step > OVER_A_SEAM)}"
    worst = worst_of(step)
    figures = f"at worst {_told(bends[0][worst])} meets {_told(bends[1][worst])} ({garment.sizes[worst]})"
    fix = "make the sharper of the two wider there, or let both of them bend"
    which = {"one": sides[0][0].piece, "other": sides[1][0].piece, "seam": join.name}
    plainly = of_sizes("lines_bend_apart", garment.sizes, step > OVER_A_SEAM, SMOOTH_IT, **which)
    return [caution(fact, join.span, figures, fix, off=np.where(step > OVER_A_SEAM, step, 0.0), plainly=plainly)]


def _told(bend: float) -> str:
    return "a straight line" if abs(bend) < 1e-3 else f"a curve of {1 / abs(bend) / 10:.1f} cm"


def _bend(garment: Garment, part: SidePart, beside: str, at_start: bool) -> Floats:
    """The curvature of the edge beside a side where the seam ends, positive where the piece is full there `(B,)`."""
    piece = garment.piece(part.piece)
    names = [edge.name for edge in piece.edges]
    before = names[names.index(part.edge) - 1] == beside and at_start != part.reverse
    return end_bends(piece.edge(beside).segments)[1 if before else 0] * handedness(piece)
