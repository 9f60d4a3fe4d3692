"""Edges that lap over one another, as they are worn: buttoned along the line of their buttons, in the middle.

What lies beyond that line is on the other half: a panel is cut off there, and beside the cut lie as many layers more as
the other half has beyond it. Buttonholes or snaps tell the line where there are no buttons.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeAlias

import numpy as np

from draft.base.arrays import Floats
from draft.garment.garment import Mark, Piece
from draft.toile.chosen_panels import Chosen
from draft.toile.outline_lines import OutlineLine
from draft.toile.panel import Panel
from draft.toile.sewn import Role
from draft.toile.why_not import CannotDress

CLOSED = "closed in the middle"
"""The line along which a panel is cut off."""
Off: TypeAlias = Callable[[Floats], Floats]
"""How far points `(n, 2)` lie on the panel's side of the line, mm."""
_DOWN = 0.9  # cosine: a line of buttons runs down the piece
_ON = 1e-6


def close_laps(found: Chosen, roles: Mapping[str, Role], body: int) -> None:
    """Cuts the panels of fronts and backs off where they are buttoned; their cut edges lie in the middle.

    Raises CannotDress where the line cuts an outline oftener than at its two ends.
    """
    for name, panel in found.panels.items():
        role = roles.get(name)
        line = _closing_line(panel.piece, body)
        sewn = [edge for edge in _sewn_edges(found, name) if edge in panel.parts]
        if role not in ("front", "back") or panel.middles or line is None or not sewn:
            continue
        along = np.concatenate([one.points for edge in sewn for one in panel.sewn(edge)])
        if not _cut_off(panel, line, along, body):
            raise CannotDress(f"why_opens_{role}")


def _sewn_edges(found: Chosen, name: str) -> set[str]:
    parts = (part for join in found.joins for part in (*join.first, *join.second))
    return {part.edge for part in parts if part.piece == name}


def _closing_line(piece: Piece, body: int) -> tuple[Floats, Floats] | None:
    """A point `(2,)` and a unit vector `(2,)` of the line that fastenings run down along; None where none do."""
    for kind in ("button", "snap", "buttonhole"):
        for mark in piece.marks:
            if mark.fastening == kind:
                points = _there(mark, body)
                way = points[-1] - points[0] if len(points) > 1 else piece.grain[body]
                way = way / float(np.hypot(*way))
                if abs(float(way @ piece.grain[body])) > _DOWN:
                    return points[0], way
    return None


def _there(mark: Mark, body: int) -> Floats:
    points = mark.points[body]
    return np.asarray(points[np.isfinite(points).all(axis=1)])


def _cut_off(panel: Panel, line: tuple[Floats, Floats], sewn: Floats, body: int) -> bool:
    """Cuts one panel off beyond a line, on the other side of which it is sewn; whether that could be done."""
    off = _off_of(*line)
    if off(sewn).mean() < 0:
        off = _off_of(line[0], -line[1])
    beyond = -min(float(off(one.points).min()) for one in panel.lines.values())
    if beyond < _ON:
        panel.middles |= {edge for edge in panel.parts if np.abs(off(panel.sewn(edge)[0].points)).max() < _ON}
        return True
    folded = _folded(panel.piece, off, body)
    if any(_crossings(off(one.points)) > 1 for one in panel.lines.values()):
        return False
    kept = {name: there for name, one in panel.lines.items() if (there := _kept(one, off(one.points))) is not None}
    faced = [width for name, width in panel.doubled if name not in kept]
    if not _put_together(panel, kept):
        return False
    panel.middles.add(CLOSED)
    lap = min(beyond, folded)
    inside = [*faced, beyond - folded] if beyond > folded else faced
    panel.doubled = [one for one in panel.doubled if one[0] in panel.lines]
    panel.doubled += [(CLOSED, lap)] * (round(panel.layers) + len(inside))
    panel.doubled += [(CLOSED, max(width - lap, lap)) for width in inside]
    return True


def _off_of(point: Floats, way: Floats) -> Off:
    across = np.array([way[1], -way[0]])
    return lambda points: np.asarray((points - point) @ across)


def _folded(piece: Piece, off: Off, body: int) -> float:
    """How far beyond the line the front is folded back onto itself, mm; endless where it is not."""
    folds = [off(_there(mark, body)) for mark in piece.marks if mark.line == "fold" and len(_there(mark, body)) > 1]
    there = [float(-far.mean()) for far in folds if far.max() < -_ON and np.ptp(far) < -0.1 * far.mean()]
    return min(there, default=np.inf)


def _kept(line: OutlineLine, off: Floats) -> OutlineLine | None:
    """What of a line lies on the panel's side; None where nothing does."""
    if off.min() > -_ON:
        return line
    if off.max() < _ON:
        return None
    k = int(np.flatnonzero((off[:-1] > 0) != (off[1:] > 0))[0])
    ends = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line.points, axis=0).T))])
    crossing = float(ends[k] + off[k] / (off[k] - off[k + 1]) * (ends[k + 1] - ends[k]))
    return line.between(0.0, crossing) if off[0] > 0 else line.between(crossing, line.length)


def _crossings(off: Floats) -> int:
    beside = off[np.abs(off) > _ON]
    return int(((beside[:-1] > 0) != (beside[1:] > 0)).sum())


def _put_together(panel: Panel, kept: dict[str, OutlineLine]) -> bool:
    """The outline round what is kept, closed by the line in the middle; whether there is one such outline."""
    inner = {name for hole in panel.holes for name in hole}
    ring = [name for name in kept if name not in inner]
    before = list(panel.lines)
    gaps = [k for k in range(len(ring)) if not _meets(kept[ring[k]], kept[ring[(k + 1) % len(ring)]])]
    if len(gaps) != 1 or not inner <= set(kept):
        return False
    first = gaps[0] + 1
    ring = ring[first:] + ring[:first]
    ends = kept[ring[-1]].points[-1], kept[ring[0]].points[0]
    panel.lines = {name: kept[name] for name in ring}
    panel.lines[CLOSED] = OutlineLine(np.stack(ends))
    panel.lines |= {name: kept[name] for name in before if name in inner}
    panel.parts = {edge: there for edge, names in panel.parts.items() if (there := [n for n in names if n in kept])}
    panel.parts[CLOSED] = [CLOSED]
    return True


def _meets(one: OutlineLine, other: OutlineLine) -> bool:
    return float(np.hypot(*(one.points[-1] - other.points[0]))) < 1e-3
