"""What was estimated, solved and chosen otherwise for a draft, as data: the same that is told in words."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.answers.otherwise import otherwise_report
from draft.answers.shape_followed import shape_report
from draft.answers.sides_said import sides_report
from draft.base.as_data import Data, of_kind
from draft.bodies.estimates import Estimate
from draft.drafting.drafting import Drafted


def estimates_data(estimates: Sequence[Estimate], left_out: int = 0) -> Data:
    """The estimates that are shown, the least and the most of each; and how many more there are."""
    return {"estimates": [_estimate(one) for one in estimates], "estimates_not_shown": left_out}


def _estimate(one: Estimate) -> Data:
    values = one.values[one.where]
    spread = {} if one.spread is None else of_kind("spread", np.max(one.spread[one.where]), one.kind)
    ends = of_kind("least", values.min(), one.kind) | of_kind("most", values.max(), one.kind)
    return {"measure": one.name, **ends, **spread, "from": one.source, "beyond": list(one.beyond)}


def solved_data(drafted: Drafted) -> Data:
    """What the solver chose, for each body."""
    kinds = {step.name: step.kind for step in drafted.plan.steps}
    sizes = drafted.garment.sizes
    return {
        "solved": {
            name: {size: of_kind("value", value, kinds[name]) for size, value in zip(sizes, values, strict=True)}
            for name, values in drafted.garment.chosen
        }
    }


def about_draft(drafted: Drafted) -> Data:
    """Of which pattern it is, for whom, and what came out otherwise than was chosen, in sentences."""
    said = [*shape_report(drafted).splitlines(), *otherwise_report(drafted).splitlines()]
    sides = sides_report(drafted).splitlines()
    return {"pattern": drafted.plan.title, "for": list(drafted.garment.sizes), "otherwise": said, "sides": sides}
