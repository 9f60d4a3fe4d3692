"""Bare cutting lines for plotters and laser cutters: whole pieces as closed paths in mm, and nothing else.

Such machines follow every line that they are given, so there is no text, no frame, no fill and no second line.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.base.output_names import file_names
from draft.base.progress import Progress
from draft.base.units import in_centimetres
from draft.garment.garment import Garment
from draft.geometry.cubic import bounds
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.drawing import Turn
from draft.paper.drawing.svg import path_data
from draft.paper.pages.sheet import drafted_bodies
from draft.paper.piece.piece_lines import FLIP, Outlines
from draft.seams.allowance import opened_out

HAIRLINE = 0.025
"""mm, a thousandth of an inch: laser cutters take a line so fine for a cut, and wider ones for engraving (common
practice)."""
GAP = 5.0  # mm between pieces: a beam leaves both whole
MARGIN = 5.0


def cutter_files(garment: Garment, width: float | None = None, progress: Progress | None = None) -> dict[str, bytes]:
    """`cutter/M.svg` and so on, one for each size, each piece once, no wider than `width` mm where that is given.

    Raises `Problems` for a piece that is wider.
    """
    files = {}
    names = file_names(garment.sizes)
    for body in drafted_bodies(garment):
        files[f"cutter/{names[body]}.svg"] = _file(garment, body, width)
        if progress:
            progress(f"cutter/{names[body]}.svg")
    return files


def _file(garment: Garment, body: int, width: float | None) -> bytes:
    paths = [
        opened_out(Outlines.of(garment, piece, body).cutting * FLIP, piece, body) * FLIP for piece in garment.pieces
    ]
    boxes = [bounds(path) for path in paths]
    limit = width - 2 * MARGIN if width else square_limit(boxes, GAP, 1.3)
    _stop_if_wider(garment, boxes, limit, body)
    moves, wide, high = in_rows(boxes, limit, GAP)
    lines = [
        f'<path id="{piece.name}" d="{path_data(Turn(0, x + MARGIN, y + MARGIN).points(path))} Z" fill="none" '
        f'stroke="#000000" stroke-width="{HAIRLINE}"/>'
        for piece, path, (x, y) in zip(garment.pieces, paths, moves, strict=True)
    ]
    across, down = f"{wide + 2 * MARGIN:.3f}", f"{high + 2 * MARGIN:.3f}"
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" viewBox="0 0 {across} {down}">'
    )
    return "\n".join([head, *lines, "</svg>\n"]).encode()


def _stop_if_wider(garment: Garment, boxes: list[Floats], limit: float, body: int) -> None:
    wide = [float(np.ptp(box[:, 0])) for box in boxes]
    notes = [
        error(
            f"`{piece.name}` is {in_centimetres(across)} wide in {garment.sizes[body]}, more than the machine takes",
            None,
            f"give `--width {in_centimetres(across + 2 * MARGIN + 0.5)}`, or leave it out",
        )
        for piece, across in zip(garment.pieces, wide, strict=True)
        if across > limit + 1e-6
    ]
    if notes:
        raise Problems(notes)
