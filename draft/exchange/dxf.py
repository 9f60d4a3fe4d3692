"""DXF after ASTM D6673, the standard for exchanging pattern pieces: a file for each size, and one of all as a nest.

Nobody here has read the standard: what is followed is from memory, and said here point by point, so that who has it
can hold it to that. The old DXF format R12, with polylines and points but no curves; a block for each piece in each
size, placed once; the layers below; points of the boundary told apart as corners and points of curves; a piece on a
fold as its half, with its mirror line; what the piece is in lines of text, `Piece Name: FRONT`; a notch as a point
whose z is its depth and whose angle is that of the cut; in the nest the number of a rule at each corner of the sample
size, and a table of the rules beside it (`exchange/grading.py`).

Of common practice, not of the standard: darts are drilled at their points and notched at their mouths, every boundary
runs counterclockwise, and the header has the extents. The date is that on which the designer says that she made this
version, never the clock's, month before day; where she says none there is none, and an hour there never is.
"""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.base.output_names import file_names
from draft.base.progress import Progress
from draft.exchange.dxf_text import dxf_text
from draft.exchange.grading import GradeRules, rule_table, turn_points
from draft.exchange.polylines import PiecePolylines, polylines_of
from draft.garment.garment import Cut, Garment, Piece
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.wording import ENGLISH
from draft.paper.pages.sheet import drafted_bodies

LAYERS = ("1", "2", "3", "4", "6", "7", "8", "13", "14", "15")
BOUNDARY, TURNS, CURVES, NOTCHES, MIRROR, GRAIN, INTERNAL, DRILLS, SEWING, TEXT = LAYERS
LONGEST_NAME = 31  # characters of a block's name in R12
HIGH = 5.0  # mm: letters that a plotter draws and a person reads
GAP = 50.0  # mm between pieces as they are placed


def dxf_files(garment: Garment, progress: Progress | None = None, day: str = "") -> dict[str, bytes]:
    """`dxf/M.dxf` and so on, one for each size; of more than one also `dxf/nest.dxf` and its rules, `dxf/nest.rul`.

    `day` is that of the pattern's version, such as `2026-05-04`.
    Raises `Problems` where the library that writes DXF is missing.
    """
    ezdxf = _library()
    files, bodies, names = dict[str, bytes](), drafted_bodies(garment), file_names(garment.sizes)
    for name, some in [*((names[body], [body]) for body in bodies), *([("nest", bodies)] if len(bodies) > 1 else [])]:
        rules = GradeRules((len(some) - 1) // 2) if len(some) > 1 else None
        with _quietly(ezdxf):
            files[f"dxf/{name}.dxf"] = _file(ezdxf, garment, some, rules, day)
        if rules:
            sizes = [garment.sizes[body] for body in some]
            files[f"dxf/{name}.rul"] = rule_table(ENGLISH.titled(garment), sizes, rules)
        if progress:
            progress(f"dxf/{name}.dxf")
    return files


def _library() -> Any:
    try:
        import ezdxf
    except ImportError:
        fix = "install it with `pip install 'plainseam[dxf]'`"
        fact = "DXF files are written by the package `ezdxf`, which is not installed"
        raise Problems([error(fact, None, fix)]) from None
    return ezdxf


@contextmanager
def _quietly(ezdxf: Any) -> Iterator[None]:
    """Write nothing of the hour into files, so that one pattern makes one file; and do not warn that the header of R12
    holds no units: the standard says them in a line of text."""
    log, fixed = logging.getLogger("ezdxf"), ezdxf.options.write_fixed_meta_data_for_testing
    level = log.level
    log.setLevel(logging.ERROR)
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        log.setLevel(level)
        ezdxf.options.write_fixed_meta_data_for_testing = fixed


def _file(ezdxf: Any, garment: Garment, bodies: Sequence[int], rules: GradeRules | None, day: str) -> bytes:
    """Each piece in each of these sizes as a block; those of one piece lie on one another."""
    document = ezdxf.new("R12", units=ezdxf.units.MM)
    for layer in LAYERS:
        document.layers.add(layer)
    pieces = [[polylines_of(garment, piece, body) for body in bodies] for piece in garment.pieces]
    boxes = [_box(np.concatenate([lines.boundary for lines in sizes])) for sizes in pieces]
    moves, _, _ = in_rows(boxes, square_limit(boxes, GAP, 1.5), GAP)
    names = iter(_block_names([lines for sizes in pieces for lines in sizes]))
    for sizes, move in zip(pieces, moves, strict=True):
        for lines in sizes:
            name = next(names)
            _draw(document.blocks.new(name), lines)
            document.modelspace().add_blockref(name, _pairs(np.array([move]))[0], dxfattribs={"layer": BOUNDARY})
            if rules and lines is sizes[rules.sample]:
                _number_turns(document.blocks.get(name), turn_points(garment, lines.piece, bodies), rules)
    placed = np.concatenate(
        [box + np.array(move) for box, move in zip(boxes, moves, strict=True)] or [np.zeros((2, 2))]
    )
    low, high = placed.min(axis=0), placed.max(axis=0)
    about = [*_about(garment, bodies, rules), *_made_on(day)]
    _write_texts(document.modelspace(), about, (float(low[0]), float(high[1]) + GAP))
    _set_extents(document, low, high + np.array([0.0, GAP + HIGH]))
    return _saved(document)


def _box(points: Floats) -> Floats:
    return np.stack([points.min(axis=0), points.max(axis=0)])


def _set_extents(document: Any, low: Floats, high: Floats) -> None:
    """Where the drawing begins and ends, for what shows it or lays out its paper from that."""
    (left, bottom), (right, top) = _pairs(np.stack([low, high]))
    document.modelspace().reset_extents((left, bottom, 0.0), (right, top, 0.0))
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (left, bottom, 0.0), (right, top, 0.0)  # also from 0, 0
    document.modelspace().reset_limits((left, bottom), (right, top))


def _number_turns(block: Any, points: Sequence[Floats], rules: GradeRules) -> None:
    """The number of its rule at each turn point of the sample size."""
    for each in points:
        insert = _pairs(each[rules.sample][None])[0]
        text = f"# {rules.of(each)}"
        block.add_text(text, height=HIGH / 2, dxfattribs={"layer": TURNS, "insert": insert})


def _saved(document: Any) -> bytes:
    text = io.StringIO()
    document.write(text)
    data: bytes = text.getvalue().encode(document.output_encoding, errors="dxfreplace")
    return data


def _draw(block: Any, lines: PiecePolylines) -> None:
    _polyline(block, lines.boundary, BOUNDARY, closed=True)
    for point, corner in zip(lines.boundary, lines.corners, strict=True):
        _point(block, point, TURNS if corner else CURVES)
    for point, (depth, angle) in zip(lines.notches, lines.snips, strict=True):
        (x, y), known = _pairs(point[None])[0], {"layer": NOTCHES, "angle": round(float(angle), 2)}
        block.add_point((x, y, round(float(depth), 2)), dxfattribs=known)
    for point in lines.drills:
        _point(block, point, DRILLS)
    if lines.fold is not None:
        block.add_line(*_pairs(lines.fold), dxfattribs={"layer": MIRROR})
    block.add_line(*_pairs(lines.grain), dxfattribs={"layer": GRAIN})
    for inner in lines.inner:
        _polyline(block, inner, INTERNAL)
    for run in lines.sewing:
        _polyline(block, run[:-1] if lines.closed else run, SEWING, lines.closed)
    middle = lines.grain.mean(axis=0)
    _write_texts(block, _about_piece(lines), (float(middle[0]) + HIGH, float(middle[1])))


def _polyline(block: Any, points: Floats, layer: str, closed: bool = False) -> None:
    block.add_polyline2d(_pairs(points), close=closed, dxfattribs={"layer": layer})


def _point(block: Any, point: Floats, layer: str) -> None:
    block.add_point(_pairs(point[None])[0], dxfattribs={"layer": layer})


def _pairs(points: Floats) -> list[tuple[float, float]]:
    return [(round(float(x), 4) + 0.0, round(float(y), 4) + 0.0) for x, y in points]


def _write_texts(space: Any, lines: Sequence[str], at: tuple[float, float]) -> None:
    for number, line in enumerate(lines):
        place = (round(at[0], 4), round(at[1] - 1.6 * HIGH * number, 4))
        space.add_text(dxf_text(line), height=HIGH, dxfattribs={"layer": TEXT, "insert": place})


def _about(garment: Garment, bodies: Sequence[int], rules: GradeRules | None) -> list[str]:
    sample = garment.sizes[bodies[rules.sample if rules else 0]]
    title = ENGLISH.titled(garment)
    said = ["Product: plainseam", f"Style Name: {title}", f"Sample Size: {sample}", "Units: METRIC"]
    said += [f"Grading Rule Table: {title}"] if rules else []
    return [*said, *([f"Author: {garment.maker}"] if garment.maker else [])]


def _made_on(day: str) -> list[str]:
    """`Creation Date: 05-04-2026`, as the standard writes it from memory."""
    if not day:
        return []
    year, month, number = day.split("-")
    return [f"Creation Date: {month}-{number}-{year}"]


def _about_piece(lines: PiecePolylines) -> list[str]:
    piece = lines.piece
    return [
        f"Piece Name: {piece.title.upper()}",
        f"Size: {lines.size}",
        f"Quantity: {sum(cut.count for cut in piece.all_cuts)}",
        *(f"Material: {cloth}" for cloth in dict.fromkeys(cut.cloth for cut in piece.cuts if cut.cloth)),
        *(f"Annotation: {_cut(piece, cut)}" for cut in piece.all_cuts),
    ]


def _cut(piece: Piece, cut: Cut) -> str:
    of = f"of {cut.cloth}" if cut.cloth else ""
    how = "on the fold" if piece.on_fold else {"as a pair": "as mirrored pairs"}.get(cut.cut_as, cut.cut_as)
    layer = f"as {cut.layer}" if cut.layer else ""
    return " ".join(filter(None, (f"cut {cut.count}", of, how, layer)))


def _block_names(pieces: Sequence[PiecePolylines]) -> list[str]:
    """Names that R12 takes: capitals, digits, hyphens and underlines, no two alike."""
    found: list[str] = []
    for lines in pieces:
        size = re.sub(r"[^A-Z0-9_]+", "_", lines.size.upper())[:10]
        name = re.sub(r"[^A-Z0-9_]+", "_", lines.piece.name.upper())[: LONGEST_NAME - len(size) - 4]
        whole = f"{name}-{size}"
        found.append(whole if whole not in found else f"{whole}-{len(found)}")
    return found
