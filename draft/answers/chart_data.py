"""A size chart before people, as data."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.answers.people_of_charts import LOOKED_AT, Called, People, Proposed
from draft.base.as_data import Data, mm, percent_of
from draft.bodies.bodies import Bodies
from draft.bodies.chart_served import GIRTHS, HALF, WHOLE, nearest_size, served, usual_at


def chart_data(chart: Bodies, name: str, people: People) -> Data:
    """Whom the sizes of a chart serve, size by size and over all."""
    bust, busts = chart.values["bust_girth"], people.bodies.values["bust_girth"]
    return {
        "chart": name,
        "people": people.told,
        "sizes": _sizes(chart, people.bodies),
        "served": [_served(chart, people.bodies, girths) for girths in LOOKED_AT],
        "less_bust_than_any_percent": percent_of((busts < bust.min()).mean()),
        "more_bust_than_any_percent": percent_of((busts > bust.max()).mean()),
    }


def charts_data(called: Called, people: People) -> Data:
    """All charts of a pattern before the same people, and how many they serve together."""
    near = [served(sizes, people.bodies, GIRTHS, WHOLE) for _, _, sizes in called.all_of_them]
    rows = [
        {"chart": name, "for": words, "sizes": list(sizes.names), "served_percent": percent_of(one.mean())}
        for (name, words, sizes), one in zip(called.all_of_them, near, strict=True)
    ]
    return {"charts": rows, "served_together_percent": percent_of(np.logical_or.reduce(near).mean())}


def proposed_data(found: Proposed, people: People, within: float) -> Data:
    """A chart that is proposed for some people, of whom a share lies within so many mm of one of its sizes."""
    served_by = {"within_mm": mm(within), "served_percent": percent_of(found.share)}
    return {"people": people.told, **served_by, "sizes": _sizes(found.chart, people.bodies)}


def _sizes(chart: Bodies, people: Bodies) -> list[Data]:
    bust, busts = chart.values["bust_girth"], people.values["bust_girth"]
    nearest = np.bincount(nearest_size(bust, busts), minlength=len(chart))
    usual = {girth: usual_at(busts, people.values[girth], bust) for girth in GIRTHS[1:]}
    rows = []
    for k, size in enumerate(chart.names):
        girths = {f"{girth}_mm": mm(chart.values[girth][k]) for girth in GIRTHS}
        for girth, (middle, spread) in usual.items():
            girths[f"usual_{girth}_from_mm"] = mm(middle[k] - spread[k])
            girths[f"usual_{girth}_to_mm"] = mm(middle[k] + spread[k])
        rows.append({"size": size, **girths, "nearest_at_the_bust_percent": percent_of(nearest[k] / len(people))})
    return rows


def _served(chart: Bodies, people: Bodies, girths: Sequence[str]) -> Data:
    half, whole = (percent_of(served(chart, people, girths, step).mean()) for step in (HALF, WHOLE))
    return {"girths": list(girths), "by_half_a_step_percent": half, "by_a_step_percent": whole}
