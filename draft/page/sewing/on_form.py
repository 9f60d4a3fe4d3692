"""How the garment will sit on a form of her measures: shown while it settles, then from three sides and told of."""

from __future__ import annotations

import json
import time

import numpy as np

from draft.answers.sit_cases import own_cases, posed
from draft.base.arrays import Floats
from draft.base.notes import Problems, error
from draft.base.plainly import sentence
from draft.form.dress_form import Form
from draft.page.bench import Asked, Bench, Gave
from draft.page.request_asked import request_asked
from draft.page.sewing.garment_at_hand import drafted_for, words_asked
from draft.paper.drawing.svg import svg
from draft.paper.worn.three_views import key_alone, views_apart
from draft.paper.worn.while_settling import WhileSettling
from draft.paper.worn.worn_words import not_dressed, sentences
from draft.sitting.sitting_of import Asked as Looked
from draft.sitting.sitting_of import Sitting, sitting_of
from draft.toile.sewn import Sewn

_BETWEEN = 0.7
"""Seconds between two pictures of what settles."""
ARMS = (85.0, -80.0)


def on_form(asked: Asked, bench: Bench) -> Gave:
    """`pictures` from three sides as SVG and a `key` to them, what is `said` of it and what to `change`; or `refused`.

    `arms` are degrees below level. Meanwhile `step` tells a JSON text: `what` is done, the `share`, or a picture.
    """
    request = request_asked(asked, bench)
    drafted = drafted_for(request, bench)
    wording = words_asked(asked, drafted.planned, bench)
    arms = _arms(asked)
    cases = own_cases(drafted, wording)
    case = cases[len(cases) // 2]
    settling = _Settling(bench, arms)
    found = sitting_of(case.subject, Looked(arms=arms), settling.told, settling.seen)
    if not isinstance(found, Sitting):
        return {"refused": wording.say("sit.refused", reason=not_dressed(found.reason, wording))}
    told = found.told
    return {
        "whose": case.name,
        "under": posed(case, arms, wording, from_waist=found.reading.from_waist),
        "pictures": [{"picture": svg(one), "shows": one.title} for one in views_apart(found.worn, wording).values()],
        "key": svg(key_alone(wording)),
        "said": sentences([one for one in told if not one.advice], wording),
        "change": sentences([one for one in told if one.advice], wording),
        "not_you": wording.say(f"sit.{case.whose}"),
        "not_said": wording.say("sit.not_said"),
    }


class _Settling:
    """Hands on how far it is, and every now and then a picture."""

    def __init__(self, bench: Bench, arms: float) -> None:
        self._bench, self._draw, self._last = bench, WhileSettling(arms), 0.0

    def told(self, what: str, share: float) -> None:
        self._bench.step(json.dumps({"what": what, "share": round(share, 3)}))

    def seen(self, what: str, sewn: Sewn, positions: Floats, form: Form) -> None:
        """Draw the cloth at positions `(v, 3)`, unless it was drawn just now."""
        if time.monotonic() - self._last > _BETWEEN:
            self._bench.step(json.dumps({"picture": self._draw.drawn(sewn, positions, form, what == "growing")}))
            self._last = time.monotonic()


def _arms(asked: Asked) -> float:
    """How far below level the arms are held, rad. Raises `Problems` for what no arm does."""
    given = asked.get("arms", 50)
    known = isinstance(given, int | float) and not isinstance(given, bool)
    if not known or not ARMS[1] <= float(given) <= ARMS[0]:
        fact = "arms are held from 85 degrees below level to 80 above it"
        raise Problems([error(fact, plainly=sentence("not_understood"))])
    return float(np.radians(float(given)))
