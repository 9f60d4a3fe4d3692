"""Two drafts on one another: the old lines thin and grey, the new ones heavy, and how far each edge has moved."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.garment.changes import Changed, Changes
from draft.garment.garment import Garment, Piece
from draft.geometry import cubic
from draft.geometry.cubic import lines_through
from draft.paper.drawing import font, line_styles
from draft.paper.drawing.box_rows import in_rows, square_limit
from draft.paper.drawing.drawing import PT, Drawing, Item, Label, Layer, Path, Stroke, Turn, circle
from draft.paper.drawing.wording import ENGLISH, Wording
from draft.paper.piece.piece_lines import FLIP

OLD = Stroke(0.25, colour="#8a8a8a")
NEW = Stroke(0.6)
TOLD = 0.5  # mm: a smaller move is a line's own width, and gets no label
_LEADER = Stroke(0.15, colour=line_styles.RUST)
_GAP, _MARGIN = 25.0, 15.0
_TEXT, _TITLE, _NAME = 15 * PT, 32 * PT, 24 * PT  # read on a screen, where a metre of drawing is a hand wide
_ASIDE = 14.0  # mm from an edge to the label of its move
_DOT = 1.5
_FINE = 16
"""Moves are told in sixteenths of an inch: in eighths most would be none."""


@dataclass(frozen=True)
class _PieceTwice:
    """A piece in one draft or both, with what is drawn of it, y down."""

    name: str
    old: tuple[Path, ...]
    new: tuple[Path, ...]
    said: tuple[Item, ...]

    def moved(self, turn: Turn) -> _PieceTwice:
        """The same piece elsewhere."""
        old, new = (tuple(path.moved(turn) for path in paths) for paths in (self.old, self.new))
        return _PieceTwice(self.name, old, new, tuple(item.moved(turn) for item in self.said))


def compared_drawing(
    old: Garment, new: Garment, changes: Changes, body: int, names: tuple[str, str], said: Wording | None = None
) -> Drawing:
    """Both drafts for one body on one another; `names` say what the old one is and what the new one.

    For makers `said` gives their language and units; without it names and millimetres are those of the text.
    """
    pieces = _pieces(old, new, changes, body, said)
    boxes = [_box(piece) for piece in pieces]
    moves, width, height = in_rows(boxes, square_limit(boxes, _GAP, 1.4), _GAP)
    title = said.titled(new) if said else new.title
    heading, top = _heading(title, names, said)
    placed = [piece.moved(Turn(0, _MARGIN + x, top + y)) for piece, (x, y) in zip(pieces, moves, strict=True)]
    layers = (
        Layer("old", tuple(item for piece in placed for item in piece.old)),
        Layer("new", tuple(item for piece in placed for item in piece.new)),
        Layer("moves", tuple(item for piece in placed for item in piece.said)),
    )
    wide = max(width, 300.0) + 2 * _MARGIN
    return Drawing(title, wide, top + height + _MARGIN, (*layers, Layer("heading", heading)))


def _pieces(old: Garment, new: Garment, changes: Changes, body: int, words: Wording | None) -> list[_PieceTwice]:
    elsewhere = {name: way[body] for name, way in changes.elsewhere}
    before = {piece.name: piece for piece in old.pieces}
    found = []
    for piece in new.pieces:
        was = before.get(piece.name)
        lines = _lines(was, body, OLD, "old", elsewhere.get(piece.name)) if was else ()
        edges = [edge for edge in changes.changed if edge.piece == piece.name]
        said = [*_title(piece, body, "" if was else "new_piece", words), *_moves(piece, edges, body, words)]
        found.append(_PieceTwice(piece.name, lines, _lines(piece, body, NEW, "new"), tuple(said)))
    gone = [before[name] for name in changes.missing_pieces]
    return found + [
        _PieceTwice(p.name, _lines(p, body, OLD, "old"), (), _title(p, body, "missing_piece", words)) for p in gone
    ]


def _lines(piece: Piece, body: int, stroke: Stroke, which: str, way: Floats | None = None) -> tuple[Path, ...]:
    move = np.zeros(2) if way is None else way
    return tuple(
        Path(
            ((edge.segments[body] + move) * FLIP,),
            stroke,
            id=f"{piece.name}.{edge.name}.{which}",
            data=(("piece", piece.name), ("edge", edge.name)),
        )
        for edge in piece.edges
    )


def _title(piece: Piece, body: int, more: str, said: Wording | None) -> tuple[Item, ...]:
    box = cubic.bounds(np.concatenate([edge.segments[body] for edge in piece.edges]) * FLIP)
    x, y = (float(at) for at in box.mean(axis=0))
    found: list[Item] = [Label(said.title(piece) if said else piece.title, x, y, _NAME, "middle", bold=True)]
    if more:
        found.append(Label((said or ENGLISH).say(f"compared.{more}"), x, y + _NAME, _TEXT, "middle"))
    return tuple(found)


def _moves(piece: Piece, edges: list[Changed], body: int, said: Wording | None) -> list[Item]:
    """A dot where each edge has moved farthest, and its move written outside the piece."""
    middle = np.mean(np.concatenate([edge.segments[body, :, 0] for edge in piece.edges]), axis=0) * FLIP
    found: list[Item] = []
    taken: list[Floats] = []
    for edge in edges:
        if edge.moved[body] <= TOLD and abs(edge.longer[body]) <= TOLD:
            continue
        at = edge.at[body] * FLIP
        out = cubic.unit(at - middle)
        spot = at + out * _ASIDE
        while any(abs(spot[1] - other[1]) < 1.3 * _TEXT and abs(spot[0] - other[0]) < 110.0 for other in taken):
            spot = spot + np.array([0.0, 1.4 * _TEXT])
        taken.append(spot)
        anchor = "start" if out[0] >= 0 else "end"
        x, y = float(spot[0]) + (1.0 if out[0] >= 0 else -1.0), float(spot[1]) + _TEXT * font.CAP_HEIGHT / 2
        dot = Path((circle(float(at[0]), float(at[1]), _DOT),), fill=_LEADER.colour, closed=True)
        found += [Path((lines_through([at, spot]),), _LEADER), dot]
        found.append(Label(_said(edge, body, said), x, y, _TEXT, anchor, colour=_LEADER.colour))
    return found


def _said(edge: Changed, body: int, said: Wording | None) -> str:
    moved, longer = float(edge.moved[body]), float(edge.longer[body])
    name = said.edge(edge.edge) if said else edge.edge.replace("_", " ")
    words = f"{name} {_length(moved, said)}"
    if abs(longer) > TOLD:
        key = "compared.longer" if longer > 0 else "compared.shorter"
        words += f", {(said or ENGLISH).say(key, length=_length(abs(longer), said))}"
    return words


def _length(mm: float, said: Wording | None) -> str:
    return said.length(mm, _FINE) if said else f"{mm:.1f} mm"


def _heading(title: str, names: tuple[str, str], said: Wording | None) -> tuple[tuple[Item, ...], float]:
    items: list[Item] = [Label(title, _MARGIN, _MARGIN + _TITLE, _TITLE, bold=True)]
    y = _MARGIN + 2 * _TITLE
    for name, stroke, word in zip(names, (OLD, NEW), ("old", "new"), strict=True):
        items.append(Path((lines_through([(_MARGIN, y), (_MARGIN + 20.0, y)]),), stroke))
        told = (said or ENGLISH).say(f"compared.{word}", name=name)
        items.append(Label(told, _MARGIN + 24.0, y + _TEXT * font.CAP_HEIGHT / 2, _TEXT))
        y += 1.8 * _TEXT
    return tuple(items), y + _GAP


def _box(piece: _PieceTwice) -> Floats:
    """What a piece takes up, its labels included."""
    corners = [path.box() for path in (*piece.old, *piece.new)]
    for item in piece.said:
        if isinstance(item, Label):
            wide = font.text_width(item.text, item.size)
            left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
            corners.append(np.array([[item.x + left, item.y - item.size], [item.x + left + wide, item.y]]))
    found = np.array(corners)
    return np.stack([found[:, 0].min(axis=0), found[:, 1].max(axis=0)])
