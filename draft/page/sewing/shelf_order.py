"""The order of the shelf: by what one looks for, and there by how much there is to sew.

It is written down, so that the shelf stands before anything is drafted; `tests/page/test_shelf.py` holds it to what the
patterns themselves say, and tells where a new one belongs.
"""

from __future__ import annotations

from typing import Literal

from draft.base.record import dataclass
from draft.drafting.drafting import Drafted
from draft.paper.flat.views import knit

Made = Literal["tops", "skirts", "trousers", "other"]


@dataclass(frozen=True)
class Group:
    """Garments that stand together: what they are, of knit or woven cloth where all are of one, and their names."""

    name: str
    made: Made
    garments: tuple[str, ...]


GROUPS = (
    Group("tops_knit", "tops", ("marlpit", "netloft", "tidemill", "hooded")),
    Group("tops_woven", "tops", ("breakwater", "lockside")),
    Group("skirts", "skirts", ("roundhouse", "ropewalk")),
    Group("trousers", "trousers", ("slipway", "boatyard")),
)
KNITS = frozenset({"marlpit", "netloft", "tidemill", "hooded", "slipway"})


def made_of(drafted: Drafted) -> Made:
    """What a garment is, by the measures that it is drafted from."""
    measures = set(drafted.plan.measures)
    if "inside_leg_length" in measures:
        return "trousers"
    if "bust_girth" in measures:
        return "tops"
    return "skirts" if measures & {"waist_girth", "hip_girth"} else "other"


def group_of(drafted: Drafted) -> str:
    """The name of the group that a garment belongs to."""
    made = made_of(drafted)
    return f"tops_{'knit' if knit(drafted.garment) else 'woven'}" if made == "tops" else made
