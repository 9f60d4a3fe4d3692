"""What a toile hangs by: the middle of the back neck at the nape, or the waist; and the hem where it falls."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.form.landmarks import Landmarks
from draft.toile.contact import OUTSIDE
from draft.toile.dressed import FormField
from draft.toile.newton import Springs
from draft.toile.sewn import Sewn
from draft.toile.trunk_laid import NECK_BASE, TRUNK, LaidFlat

UP = 4.0
"""mm above the form's nape at which the pattern's is laid."""
_TETHER = 0.5  # N/mm
_HEM = 0.005
"""N/mm for each mm of the hem: a hand that smooths it down; ten times as much moves strain by less than 0.002."""
_WAIST = 0.02
_READ = 100.0
"""mm of cloth along which the hem is read, ever less with the way: where it hangs free, a hand's breadth is a fold."""
_ON_BACK = 0.97
"""Of the way down from the pattern's nape, along the back, what it is in height."""


@dataclass(frozen=True, eq=False)
class HangsBy:
    """The springs that hold a toile up and those that hold its hem down, and where the hem's vertices would hang.

    `hem` `(k,)` are vertices that move, `level` `(k,)` their heights where nothing is tight, mm from the nape.
    """

    held_up: Springs
    hem: Ints
    level: Floats
    ends: dict[str, Floats]
    """What each vertex of the hem counts `(k,)` in the middle of front and back and at the side."""
    level_hem: dict[str, float]
    up: float
    """How high the pattern's zero lies while it is laid flat, mm from the nape."""

    def held_down(self, cloth_edge: float) -> Springs:
        """The hem held down at where it would hang, its vertices about so far apart, mm."""
        stiff = np.zeros((len(self.hem), 3))
        stiff[:, 2] = _HEM * cloth_edge
        places = np.zeros((len(self.hem), 3))
        places[:, 2] = self.level
        return Springs(self.hem, places, stiff, from_above=True)

    def hem_of(self, x: Floats) -> dict[str, float]:
        """The heights of the hem's ends at positions `(v, 3)`."""
        return {name: float(share @ x[self.hem, 2]) for name, share in self.ends.items()}


def hangs_by(sewn: Sewn, flat: LaidFlat, field: FormField, marks: Landmarks) -> HangsBy:
    """How a sewn garment laid flat hangs on a form."""
    waist = marks.levels["waist"]
    up = UP if flat.from_shoulder else waist
    hem, rest_ends = _hem(sewn, flat)
    fallen = {side: _hangs(flat, marks, places, side) for side, (places, _) in rest_ends.items()}
    middle = (fallen["front"] + fallen["back"]) / 2
    found: dict[int, float] = {}
    for side, (places, vertices) in rest_ends.items():
        share = np.abs(places[:, 0]) / max(np.abs(places[:, 0]).max(), 1e-9)
        heights = fallen[side] * (1 - share) + middle * share
        found |= dict(zip(sewn.merged[vertices].tolist(), heights.tolist(), strict=True))
    level = np.array([found[int(vertex)] for vertex in hem])
    ends = _ends(sewn, hem, rest_ends)
    told = {name: float(share @ level) for name, share in ends.items()}
    return HangsBy(_held_up(sewn, flat, field, waist), hem, level, ends, told, up)


def _ends(sewn: Sewn, hem: Ints, rest_ends: _Ends) -> dict[str, Floats]:
    """What each vertex of the hem counts in the middle of the front, at the side and in the middle of the back."""
    found = {name: np.zeros(len(hem)) for name in ("front", "side", "back")}
    for side, (places, vertices) in rest_ends.items():
        at = np.searchsorted(hem, sewn.merged[vertices])
        across = np.abs(places[:, 0])
        for name, far in ((side, across - across.min()), ("side", across.max() - across)):
            np.add.at(found[name], at, np.maximum(1.0 - far / _READ, 0.0))
    return {name: share / share.sum() for name, share in found.items()}


_Ends = dict[str, tuple[Floats, Ints]]


def _hem(sewn: Sewn, flat: LaidFlat) -> tuple[Ints, _Ends]:
    """The vertices of the hem that move, and of front and back their places laid flat with their numbers."""
    ends: _Ends = {}
    for side in TRUNK:
        names = [name for name in sewn.hems if sewn.roles[sewn.pieces.index(name[0])] == side]
        vertices = np.unique(np.concatenate([sewn.edges[name] for name in names]))
        ends[side] = (flat.places[vertices], vertices)
    return np.unique(np.concatenate([sewn.merged[vertices] for _, vertices in ends.values()])), ends


def _hangs(flat: LaidFlat, marks: Landmarks, places: Floats, side: str) -> float:
    """Where the middle of a hem comes to hang: so far down the tape from the side neck, or below the waist."""
    low = float(places[np.argmin(np.abs(places[:, 0])), 1])
    if not flat.from_shoulder:
        return marks.levels["waist"] + low
    tape = marks.front if side == "front" else marks.back
    return float(tape.height(np.array([NECK_BASE - low]))[0])


def _held_up(sewn: Sewn, flat: LaidFlat, field: FormField, waist: float) -> Springs:
    if flat.from_shoulder:
        height = _ON_BACK * float(flat.places[flat.top, 1])
        place = np.array([[0.0, _behind(field, height), height]])
        return Springs(sewn.merged[[flat.top]], place, np.full((1, 3), _TETHER))
    around = _waist(sewn, flat)
    places = np.zeros((len(around), 3))
    places[:, 2] = waist
    stiff = np.zeros_like(places)
    stiff[:, 2] = _WAIST * sewn.edge_length
    return Springs(around, places, stiff)


def _behind(field: FormField, height: float) -> float:
    """How far back the cloth lies on the middle of the back at a height."""
    y = np.linspace(-150.0, 300.0, 901)
    values, _ = field.at(np.stack([np.zeros_like(y), y, np.full_like(y, height)], axis=1))
    inside = np.flatnonzero(values < 0)
    if not len(inside):
        return float(y[np.argmin(values)])
    last = int(inside[-1])
    return float(y[last] - values[last] * (y[last + 1] - y[last]) / (values[last + 1] - values[last])) + OUTSIDE


def _waist(sewn: Sewn, flat: LaidFlat) -> Ints:
    """The vertices that move along the upper edges of the trunk: where a waistband is sewn, or the highest of all."""
    role = np.array(sewn.roles)[sewn.piece_of_vertex]
    pairs = np.concatenate([sewn.pairs, sewn.pairs[:, ::-1]])
    sewn_on = pairs[(role[pairs[:, 0]] == "band") & np.isin(role[pairs[:, 1]], TRUNK), 1]
    if not len(sewn_on):
        sewn_on = np.flatnonzero(flat.places[:, 1] > -sewn.edge_length / 2)
    return np.asarray(np.unique(sewn.merged[sewn_on]))
