"""A panel: the part of a piece that is meshed, as the lines of its outline, with its darts and pleats open.

The outline runs down one side of a dart and up the other; both sides are sewn to one another like any seam. What a
pleat lays underneath is cut out the same way, down to where it is let go.
"""

from __future__ import annotations

from dataclasses import field

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.garment.garment import Edge, Piece, Takeup
from draft.garment.marks import dart_legs, inner_legs
from draft.seams.sides import takeups_of
from draft.toile.outline_lines import OutlineLine

_TAKES_UP = 1.0  # mm: a dart that takes up less is none
_BESIDE = 4.0  # mm between a dart and the end of its edge


@dataclass(eq=False)
class Panel:
    """What is meshed of a piece: `lines` in the order of the outline, those of `holes` each round a hole."""

    piece: Piece
    lines: dict[str, OutlineLine]
    parts: dict[str, list[str]]
    """The lines that an edge is sewn along, in its order: what its darts and pleats take up is not among them."""
    shut: list[tuple[str, str]] = field(default_factory=list)
    """Lines of one length, of which the second runs the other way, that are sewn to one another."""
    holes: list[list[str]] = field(default_factory=list)
    middles: set[str] = field(default_factory=set)
    """Edges on the plane between left and right."""
    layers: float = 1.0
    doubled: list[tuple[str, float]] = field(default_factory=list)
    """Lines beside which a facing lies, with its width in mm."""
    band: bool = False
    """Whether it finishes an opening: it lies beyond what it is sewn to."""
    base: str = ""
    """The edge by which a band is sewn on."""
    rest: Floats = field(default_factory=lambda: np.zeros((0, 2)))
    triangles: Ints = field(default_factory=lambda: np.zeros((0, 3), dtype=np.intp))
    at: dict[str, Ints] = field(default_factory=dict)
    """The vertices along each line."""

    @property
    def name(self) -> str:
        """The name of its piece."""
        return self.piece.name

    @property
    def ring(self) -> list[str]:
        """The lines round its outside."""
        inner = {name for hole in self.holes for name in hole}
        return [name for name in self.lines if name not in inner]

    def sewn(self, edge: str) -> list[OutlineLine]:
        """The lines that an edge is sewn along."""
        return [self.lines[name] for name in self.parts[edge]]

    def length(self, edge: str) -> float:
        """The sewn length of an edge before it is drawn up, mm."""
        return sum(line.length for line in self.sewn(edge))


def panel_of(piece: Piece, body: int) -> Panel:
    """A piece as it is drawn, for one body."""
    panel = Panel(piece, {}, {})
    for edge in piece.edges:
        _add_edge(panel, edge, body)
        if edge.on_fold:
            panel.middles.add(edge.name)
    for number, dart in enumerate(piece.inner_darts):
        if dart.width[body] > _TAKES_UP and (dart.there is None or dart.there[body] > 0):
            _add_hole(panel, [OutlineLine.of(leg) for leg in inner_legs(dart, body)], f"dart {number + 1} inside")
    return panel


def _add_edge(panel: Panel, edge: Edge, body: int) -> None:
    whole, start, parts = OutlineLine.of(edge.segments[body]), 0.0, []
    for number, taken in enumerate(_taken_up(panel.piece, edge, whole.length, body)):
        at, half = float(taken.at[body]), float(taken.width[body]) / 2
        parts.append(_put(panel, f"{edge.name}/{number}", whole.between(start, at - half)))
        _add_notch(
            panel, f"{edge.name}/{number}", taken, whole.at(np.array([at - half, at + half]) / whole.length), body
        )
        start = at + half
    last = whole if not parts else whole.between(start, whole.length)
    parts.append(_put(panel, f"{edge.name}/{len(parts)}" if parts else edge.name, last))
    panel.parts[edge.name] = parts


def _put(panel: Panel, name: str, line: OutlineLine) -> str:
    panel.lines[name] = line
    return name


def _taken_up(piece: Piece, edge: Edge, long: float, body: int) -> list[Takeup]:
    """Its darts and pleats that take anything up of this body, and lie within the edge."""
    found = []
    for one in takeups_of(piece, edge):
        at, half = float(one.at[body]), float(one.width[body]) / 2
        there = one.there is None or one.there[body] > 0
        if there and np.isfinite(at) and 2 * half > _TAKES_UP and _BESIDE < at - half < at + half < long - _BESIDE:
            found.append(one)
    return found


def _add_notch(panel: Panel, name: str, taken: Takeup, mouths: Floats, body: int) -> None:
    """The two sides of a dart, or of a pleat down to where it is let go."""
    if taken.to is not None:
        down, up = (OutlineLine.of(leg) for leg in dart_legs(taken, mouths, body))
        _put(panel, f"{name} in", down)
    else:
        assert taken.length is not None
        across = (mouths[1] - mouths[0]) / float(np.hypot(*(mouths[1] - mouths[0])))
        foot = mouths + float(taken.length[body]) * np.array([-across[1], across[0]]) * _turns(panel, body)
        up = OutlineLine(np.stack([mouths[1], foot[1]]))
        _put(panel, f"{name} in", OutlineLine(np.stack([mouths[0], foot[0]])))
        panel.lines[_put(panel, f"{name} foot", OutlineLine(foot))].cuts = np.array([0.0, 0.5, 1.0])
    panel.shut.append((f"{name} in", _put(panel, f"{name} out", OutlineLine(up.points[::-1]))))


def _turns(panel: Panel, body: int) -> float:
    """1 where the outline runs counterclockwise, its inside to the left."""
    points = np.concatenate([edge.segments[body, :, 0] for edge in panel.piece.edges])
    after = np.roll(points, -1, axis=0)
    return float(np.sign(np.sum(points[:, 0] * after[:, 1] - points[:, 1] * after[:, 0])))


def _add_hole(panel: Panel, legs: list[OutlineLine], name: str) -> None:
    """A dart inside the piece: from where it is widest two legs to one point, and two to the other."""
    one_up, other_up, one_down, other_down = legs
    lines = [
        OutlineLine(one_up.points),
        OutlineLine(other_up.points[::-1]),
        OutlineLine(other_down.points),
        OutlineLine(one_down.points[::-1]),
    ]
    names = [_put(panel, f"{name}, {k}", line) for k, line in enumerate(lines)]
    panel.holes.append(names)
    panel.shut += [(names[0], names[1]), (names[2], names[3])]
