"""What became of each of many bodies: whether it was drafted, whether the garment can be worn, and why not."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from draft.base.record import dataclass
from draft.base.units import in_words
from draft.fabrics.properties import percent
from draft.fit.stretch import NeededStretch, needed_stretches
from draft.garment.garment import Garment
from draft.geometry.flatten import sample
from draft.seams.walk import walk_seams
from draft.solve import Outcome, Standing

SEAM = 0.5  # mm: as the check of seams has it
PLACES = 12  # on each segment, as the check of outlines has it
OFF = ", by "  # between what does not hold and by how much
SAME = 0.001  # mm: points nearer than this are one point

Reasons = NDArray[np.object_]


@dataclass(frozen=True)
class Verdicts:
    """For each body why it was not drafted, or why it cannot be worn as it is; empty where all is well: `(bodies,)`."""

    undrafted: Reasons
    unworn: Reasons

    @property
    def drafted(self) -> NDArray[np.bool_]:
        """The bodies whose pattern can be cut."""
        return np.asarray(self.undrafted == "", dtype=bool)

    @property
    def worn(self) -> NDArray[np.bool_]:
        """The bodies whose garment can be put on and worn."""
        return np.asarray(self.drafted & (self.unworn == ""), dtype=bool)


def verdicts(outcome: Outcome, garment: Garment) -> Verdicts:
    """The verdicts on all bodies of an outcome."""
    count = len(outcome.bodies)
    undrafted, unworn = _no_reasons(count), _no_reasons(count)
    for span, fact, mask in outcome.trace.failures:
        _tell(undrafted, mask, f"{fact}: `{span.text.splitlines()[0]}`")
    for standing in outcome.standings:
        _tell_off(undrafted, standing)
    for words, mask in _faults(garment):
        _tell(undrafted, mask, words)
    for standing in outcome.promises:
        _tell_off(unworn, standing)
    for needed in needed_stretches(garment):
        _tell_each(unworn, needed)
    return Verdicts(undrafted, unworn)


def _no_reasons(count: int) -> Reasons:
    return np.full(count, "", dtype=object)


def _tell(reasons: Reasons, mask: NDArray[np.bool_], words: str) -> None:
    """Say it of the bodies of the mask of which nothing is said yet: the first reason is the root."""
    reasons[mask & (reasons == "")] = words


def _tell_off(reasons: Reasons, standing: Standing) -> None:
    """Say of the bodies for which a relation does not hold by how much."""
    relation = standing.relation
    fact = f"does not hold: {relation.words or relation.span.text}"
    for k in np.flatnonzero(~standing.met & (reasons == "")):
        reasons[k] = f"{fact}{OFF}{in_words(float(-standing.margin[k]), relation.left.kind)}"


def _tell_each(reasons: Reasons, needed: NeededStretch) -> None:
    for k in np.flatnonzero(~needed.met & (reasons == "")):
        asked, limit = percent(float(needed.share[k])), percent(float(needed.limit[k]))
        reasons[k] = f"{needed.why}: {asked} of stretch asked, {limit} there"


def _faults(garment: Garment) -> list[tuple[str, NDArray[np.bool_]]]:
    """Seams that do not fit, and outlines that cross themselves."""
    import shapely

    found = []
    for walked in walk_seams(garment):
        found.append((f"the two sides of `{walked.join.name}` do not fit", np.abs(walked.difference) > SEAM))
    for piece in garment.pieces:
        points = sample(np.concatenate([edge.segments for edge in piece.edges], axis=1), PLACES)
        closed = np.hypot(*(points[:, 0] - points[:, -1]).T) <= SAME  # a rounding apart it would cross itself there
        points[closed, -1] = points[closed, 0]
        lines = shapely.remove_repeated_points(shapely.linestrings(points), SAME)
        found.append((f"the outline of `{piece.name}` crosses itself", ~shapely.is_simple(lines)))
    return found
