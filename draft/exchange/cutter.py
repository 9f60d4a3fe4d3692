"""Bare cutting lines for plotters and laser cutters: whole pieces as closed paths in mm, and nothing that nobody asked.

Such machines follow every line that they are given, so there is no text, no frame, no fill and no second line. Notches
are cut with the outline; lines inside stand in a group of their own in another colour, to be drawn or left out.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.base.output_names import file_names
from draft.base.progress import Progress
from draft.base.record import dataclass
from draft.base.units import in_centimetres
from draft.cloth.cut_pieces import cut_pieces_of
from draft.cloth.of_one import of_each_cloth
from draft.exchange.bare_pieces import BarePiece, Notched, bare_piece
from draft.exchange.hpgl import hpgl
from draft.garment.garment import Garment
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.drawing import Turn
from draft.paper.drawing.svg import path_data
from draft.paper.pages.sheet import drafted_bodies

HAIRLINE = 0.025
"""mm, a thousandth of an inch: laser cutters take a line so fine for a cut, and wider ones for engraving (common
practice)."""
GAP = 5.0  # mm between pieces: a beam leaves both whole
MARGIN = 5.0
_CUT, _INNER = "#000000", "#0000ff"
"""Machines tell what to do with a line by its colour, such as these (common practice)."""


@dataclass(frozen=True)
class Machine:
    """What a machine is to get: the width that it takes in mm, how notches are cut, whether lines inside are there,
    every copy that is cut with its mirror image, pieces turned where they fit only so, and HPGL beside the SVG."""

    width: float | None = None
    notches: Notched = "none"
    inner: bool = False
    copies: bool = False
    turned: bool = False
    hpgl: bool = False


BARE = Machine()


def cutter_files(garment: Garment, machine: Machine = BARE, progress: Progress | None = None) -> dict[str, bytes]:
    """`cutter/M.svg` and so on, one for each size, and with every copy one for each cloth, `cutter/lining/M.svg`.

    Of each `cutter/M.plt` too, where HPGL is asked for.

    Raises `Problems` for a piece that is wider than the machine.
    """
    files = {}
    names = file_names(garment.sizes)
    for cloth, own in (of_each_cloth(garment) if machine.copies else {"": garment}).items():
        for body in drafted_bodies(garment):
            name = "/".join(filter(None, ("cutter", cloth, names[body])))
            laid, field = _laid(own, body, machine)
            files[f"{name}.svg"] = _file(laid, field)
            if machine.hpgl:
                cut = [run for one in laid for run in (one.outline, *one.notches)]
                files[f"{name}.plt"] = hpgl(cut, [run for one in laid for run in one.inner], field)
            if progress:
                progress(f"{name}.svg")
    return files


def _laid(garment: Garment, body: int, machine: Machine) -> tuple[list[BarePiece], tuple[float, float]]:
    """The pieces in their places, and how wide and high the field is on which they lie."""
    pieces = _copies(garment, body, machine) if machine.copies else _each(garment, body, machine)
    limit = machine.width - 2 * MARGIN if machine.width else square_limit([one.box for one in pieces], GAP, 1.3)
    if machine.turned:
        pieces = [one.turned() if _fits_only_turned(one, limit) else one for one in pieces]
    boxes = [one.box for one in pieces]
    _stop_if_wider(pieces, limit, garment.sizes[body])
    moves, wide, high = in_rows(boxes, limit, GAP)
    laid = [one.changed(Turn(0, x + MARGIN, y + MARGIN).points) for one, (x, y) in zip(pieces, moves, strict=True)]
    return laid, (wide + 2 * MARGIN, high + 2 * MARGIN)


def _file(laid: Sequence[BarePiece], field: tuple[float, float]) -> bytes:
    across, down = (f"{side:.3f}" for side in field)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" viewBox="0 0 {across} {down}">'
    )
    return "\n".join([head, *_inner(laid), *_cut(laid), "</svg>\n"]).encode()


def _each(garment: Garment, body: int, machine: Machine) -> list[BarePiece]:
    return [bare_piece(garment, piece, body, machine.notches, machine.inner) for piece in garment.pieces]


def _copies(garment: Garment, body: int, machine: Machine) -> list[BarePiece]:
    """Every copy, those that are the other hand as mirror images."""
    found = []
    for cut in cut_pieces_of(garment, body):
        piece = garment.pieces[cut.number - 1]
        one = bare_piece(garment, piece, body, machine.notches, machine.inner)
        for copy in range(cut.count):
            name = f"{one.name}-{copy + 1}" if cut.count > 1 else one.name
            mirrored = copy >= cut.count - cut.mirrored
            found.append(one.changed(_mirrored if mirrored else np.asarray, name))
    return found


def _mirrored(points: Floats) -> Floats:
    return np.asarray(points * np.array([-1.0, 1.0]))


def _fits_only_turned(one: BarePiece, limit: float) -> bool:
    wide, high = np.ptp(one.box, axis=0)
    return bool(wide > limit + 1e-6 and high <= limit + 1e-6)


def _cut(pieces: Sequence[BarePiece]) -> list[str]:
    """The outline of each piece, and behind it its notches."""
    found = []
    for one in pieces:
        found.append(_path(one.name, f"{path_data(one.outline)} Z", _CUT))
        if one.notches:
            found.append(_path(f"{one.name}.notches", " ".join(map(path_data, one.notches)), _CUT))
    return found


def _inner(pieces: Sequence[BarePiece]) -> list[str]:
    """The lines inside in their group, first, so that they are drawn before the piece comes loose."""
    lines = [_path(f"{one.name}.inner", " ".join(map(path_data, one.inner)), _INNER) for one in pieces if one.inner]
    return ['<g id="inner-lines">', *lines, "</g>"] if lines else []


def _path(name: str, data: str, colour: str) -> str:
    return f'<path id="{name}" d="{data}" fill="none" stroke="{colour}" stroke-width="{HAIRLINE}"/>'


def _stop_if_wider(pieces: Sequence[BarePiece], limit: float, size: str) -> None:
    wide = [float(np.ptp(one.box[:, 0])) for one in pieces]
    notes = [
        error(
            f"`{one.name}` is {in_centimetres(across)} wide in {size}, more than the machine takes",
            None,
            f"give `--width {in_centimetres(across + 2 * MARGIN + 0.5)}`, or leave it out",
        )
        for one, across in zip(pieces, wide, strict=True)
        if across > limit + 1e-6
    ]
    if notes:
        raise Problems(notes)
