"""A drawing made into the text of a pattern, which is drafted and held to the drawing before anyone gets it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from draft.base.bounded import Failed, run_each
from draft.base.notes import Note, Problems, Severity, Source, caution, error
from draft.base.opening import open_file, read_at_most
from draft.base.record import dataclass
from draft.beginning.chosen import Found, in_mm, pieces_of
from draft.beginning.corners import runs_of
from draft.beginning.edge_fit import FittedEdge, fitted_edges, ladder
from draft.beginning.piece_written import Written, distance_apart, edge_names, once_each, piece_text, plain_name
from draft.beginning.said_by_lines import FOLD
from draft.beginning.shaped import half_of, moved, origin_of, sewing_line, stop_if_crossing
from draft.beginning.strokes import Drawn, heard
from draft.beginning.svg_numbers import MM, PIXEL
from draft.drafting.checked import draft_planned
from draft.drafting.planned import Planned, plan_for
from draft.drafting.request import Request
from draft.garment.garment import Garment
from draft.language.reader import read
from draft.language.tidy import tidy
from draft.plan.library import with_used

WITHIN = 0.1
"""mm: a drafted line keeps so near to the one that was drawn."""
LARGEST = 20_000_000
_HOPELESS = 0.5
"""mm: what strays so far is no matter of how points are rounded."""
_SECONDS = 40.0
"""Of the processor: a drawing of 100,000 lines takes a quarter."""
READERS = {".svg": "draft.beginning.svg_strokes:svg_strokes", ".dxf": "draft.beginning.dxf_strokes:dxf_strokes"}
UNITS = {**{name: MM[name] for name in ("mm", "cm", "in", "pt")}, "px": PIXEL}


@dataclass(frozen=True)
class Outlines:
    """What is asked of a drawing: its unit where it says none, its layers, what is joined or closed (mm), and halves.

    `included` is the allowance (mm) that its lines already have, None for lines that are sewn.
    """

    name: str
    title: str = ""
    unit: str | None = None
    layers: tuple[str, ...] = ()
    join: float = 0.5
    close: bool = False
    fold: bool = False
    included: float | None = None
    allowance: str = "1/2 in"
    inches: bool = False


@dataclass(frozen=True)
class BegunPiece:
    """A piece as it was written: its edges, how many are straight, the curves of the others, and how far off (mm)."""

    name: str
    edges: tuple[str, ...]
    straight: int
    curves: int
    off: float
    on_fold: bool


@dataclass(frozen=True)
class Begun:
    """A pattern's text, its pieces, and what there is to say."""

    text: str
    pieces: tuple[BegunPiece, ...]
    notes: tuple[Note, ...]


def read_drawing(path: Path) -> Drawn:
    """The drawing in a file. Raises `Problems` for one that cannot be read."""
    reader = READERS.get(path.suffix.lower())
    if reader is None:
        fix = f"save it as {' or '.join(READERS)}"
        raise Problems([error(f"`{path}` is no drawing that outlines are read from", None, fix)])
    with open_file(path, "drawing") as file:
        data = read_at_most(file, LARGEST)
    if len(data) > LARGEST:
        raise Problems([error(f"`{path}` is over {LARGEST // 1_000_000} MB, too large for a drawing of outlines")])
    (answer,) = run_each(reader, [data], _SECONDS, together=_SECONDS)
    if isinstance(answer, Failed):
        why = f"{answer.reason} while it was read" if answer.reason else "reading it does not come to an end"
        raise Problems([error(f"`{path}` cannot be read: {why}", None, "save it anew, with plain lines and curves")])
    found = heard(answer)
    if isinstance(found, str):
        raise Problems([error(f"`{path}` {found}", None, _fix(found, path))])
    return found


def _fix(why: str, path: Path) -> str:
    if "not installed" in why:
        return "run `pip install 'plainseam[outlines]'`"
    return f"save it again as plain {path.suffix.lower().removeprefix('.').upper()}, with objects converted to paths"


def begin(path: Path, asked: Outlines) -> Begun:
    """The pattern that a drawing makes. Raises `Problems` for what cannot be read, or is no outline of a piece."""
    drawn = read_drawing(path)
    drawn_in_mm = in_mm(drawn, _unit(drawn, asked, path))
    _stop_if_endless(drawn_in_mm, path)
    found, notes = pieces_of(drawn_in_mm, asked.layers, asked.join, asked.close)
    said = [plain_name(one.name, "piece") if one.name else f"piece_{k + 1}" for k, one in enumerate(found)]
    made = [_piece(one, name, asked, drawn.upwards) for one, name in zip(found, once_each(said), strict=True)]
    notes += [note for _, _, some in made for note in some]
    head = _head(asked, path.name, len(made))
    text = tidy(Source(f"{asked.name}.piece", "\n".join([head, *(piece for piece, _, _ in made)])))
    drafted = draft_planned(_planned(text, asked.name))
    notes += [note for note in drafted.notes if note.severity is Severity.ERROR]
    return Begun(text, tuple(one for _, one, _ in made), tuple(notes))


_FAR = 100_000.0
"""No place of a drawing lies further off, mm: a marker of a whole cutting table is some ten metres long."""
_MOST_PARTS = 50_000
"""Parts of one line: five metres round a cape, traced every tenth of a millimetre."""


def _stop_if_endless(drawn: Drawn, path: Path) -> None:
    """Raises `Problems` for a drawing that nobody could cut from, before time is spent on it."""
    for stroke in drawn.strokes:
        if not np.all(np.abs(stroke.path) <= _FAR):  # also where it is no number
            fact = f"`{path}` has a line that runs beyond {_FAR / 1000:g} m"
            raise Problems([error(fact, None, "say the unit of the drawing with `--unit`, or draw that line anew")])
        if len(stroke.path) > _MOST_PARTS:
            fact = f"`{path}` has a line of {len(stroke.path):,} parts, more than {_MOST_PARTS:,}"
            raise Problems([error(fact, None, "save it again with fewer points: every tenth of a millimetre will do")])


def _unit(drawn: Drawn, asked: Outlines, path: Path) -> float:
    if asked.unit:
        return UNITS[asked.unit]
    if drawn.unit is None:
        listed = ", ".join(UNITS)
        fix = f"say what one unit of it is, as in `--unit mm`: one of {listed}"
        raise Problems([error(f"`{path}` does not say in what unit it is drawn", None, fix)])
    return drawn.unit


def _head(asked: Outlines, drawing: str, count: int) -> str:
    pieces = "one piece" if count == 1 else f"{count} pieces"
    drawn = "the sewing lines, within the allowance that is drawn there" if asked.included else "the lines"
    told = f"# {pieces[:1].upper()}{pieces[1:]}, begun from {_plain(drawing)}: {drawn}, within {WITHIN} mm.\n"
    title = asked.title or asked.name.replace("_", " ").capitalize()
    return f'{told}\npattern {asked.name}\n    title "{title}"\n    allowance {asked.allowance}\n'


def _plain(text: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in text)[:100]


def _piece(found: Found, name: str, asked: Outlines, upwards: float) -> tuple[str, BegunPiece, list[Note]]:
    """One piece in words, what there is to tell of it, and notes."""
    stop_if_crossing(found, name, upwards)
    shaped = sewing_line(found, asked.included, name) if asked.included else found
    shaped = half_of(shaped, name) if asked.fold else shaped
    placed = moved(shaped, origin_of(shaped))
    runs = runs_of(placed.outline.path, placed.edges)
    text, edges, off = "", list[FittedEdge](), np.inf
    for rounding in ladder(asked.inches):
        tried = fitted_edges(runs, rounding)
        written = piece_text(name, tried, placed.grain, "", Written(asked.inches))
        away = _off(written, name, tried)
        if away < off:
            text, edges, off = written, tried, away
        if off <= WITHIN or away > _HOPELESS:
            break
    notes = [] if off <= WITHIN else [_rough(name, off)]
    straight = sum(edge.straight for edge in edges)
    folded = any(edge.name == FOLD for edge in edges)
    told = BegunPiece(name, tuple(edge_names(edges)), straight, sum(edge.curves for edge in edges), off, folded)
    return text, told, notes


def _rough(name: str, off: float) -> Note:
    fact = f"`{name}` keeps within {off:.2f} mm of its outline, and not within {WITHIN} mm"
    return caution(fact, None, "look whether the outline is smooth where it is farthest, and draw it anew there")


def _off(text: str, name: str, edges: Sequence[FittedEdge]) -> float:
    """How far the drafted edges stray from the lines that they are to keep by, mm."""
    garment = _drafted(text)
    drawn = garment.piece(name).edges
    return max(distance_apart(one.segments[0], edge.meant) for one, edge in zip(drawn, edges, strict=True))


def _drafted(piece: str) -> Garment:
    """A piece drafted by the engine as it is written."""
    return draft_planned(_planned(f"pattern begun\n    allowance 0 cm\n\n{piece}", "begun")).garment


def _planned(text: str, name: str) -> Planned:
    source = Source(f"{name}.piece", text)
    return plan_for(Request(source.name), with_used(read(source), Path()))
