"""How it will sit, as a browser asks for it: steps while it settles, pictures, sentences, and reasons why not."""

from __future__ import annotations

import json
import re
import sys
from typing import Any

import pytest

from draft.base.notes import Problems
from draft.page.bench import Bench
from draft.page.page_verbs import VERBS
from draft.paper.worn.while_settling import WhileSettling
from draft.sitting.sit_told import telling
from draft.sitting.sitting_of import Asked, Sitting, Subject
from tests.form.made_up import form
from tests.page.test_sewing_verbs import HERS
from tests.paper.test_worn_pictures import READING
from tests.sitting.made_up import worn
from tests.sitting.tube import dressed


def _sat(subject: Subject, asked: Asked, told: Any, seen: Any) -> Sitting:
    """Dresses nothing: the time that it takes is another test's."""
    told("settling", 0.1)
    tube = dressed(250.0, 150.0)
    for what in ("growing", "down"):
        seen(what, tube.sewn, tube.states["down"].positions, form())
    return Sitting(worn(), READING, telling(READING, subject.by_ease))


def test_it_is_shown_while_it_settles_and_then_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.modules["draft.page.sewing.on_form"], "sitting_of", _sat)
    steps: list[dict[str, Any]] = []
    bench = Bench(step=lambda words: steps.append(json.loads(words)))
    gave = json.loads(json.dumps(VERBS["on_form"]({**HERS, "arms": 20, "language": "de"}, bench)))
    assert steps[0] == {"what": "settling", "share": 0.1} and steps[1]["picture"].startswith("<svg")
    assert len(steps) == 2  # the second picture came too soon after the first
    assert [one["shows"].partition(":")[0] for one in gave["pictures"]] == ["Vorn", "Seite, ohne den Arm", "Hinten"]
    sizes = {re.search(r'viewBox="[^"]*"', one["picture"])[0] for one in gave["pictures"]}  # type: ignore[index]
    assert len(sizes) == 1  # so that they are shown at one scale
    assert "Gedehnt um" in gave["key"] and gave["under"].endswith("Arme 20 Grad unter der Waagerechten, Saum nach unten"
                                                                  " gezogen")  # fmt: skip
    assert gave["not_you"] == "Eine Form nach diesen Maßen, kein Mensch."
    assert any("Saum" in line for line in gave["said"]) and gave["change"]


def test_a_garment_that_cannot_be_dressed_is_told_with_the_reason() -> None:
    gave = VERBS["on_form"]({**HERS, "garment": "boatyard"}, Bench())
    assert gave == {"refused": "Not dressed: it has legs: trousers cannot be dressed yet."}


@pytest.mark.parametrize("arms", [86, -81, "up", None, True, float("nan")])
def test_arms_that_nobody_has(arms: object) -> None:
    """The page offers none of these, so all that it says of them is that it does not understand."""
    with pytest.raises(Problems, match="does not understand this"):
        VERBS["on_form"]({**HERS, "arms": arms}, Bench())


def test_what_settles_is_drawn_before_the_form_while_that_still_grows() -> None:
    tube, drawing = dressed(150.0, 35.0), WhileSettling(0.9)  # within the form
    hidden = drawing.drawn(tube.sewn, tube.states["down"].positions, form())
    before = drawing.drawn(tube.sewn, tube.states["down"].positions, form(), grows=True)
    assert "#f8f6f1" in before and "#f8f6f1" not in hidden and len(before) < 30_000


@pytest.mark.slow
def test_a_real_top_is_dressed_in_a_browser_s_time() -> None:
    steps: list[str] = []
    gave = VERBS["on_form"](HERS, Bench(step=steps.append))
    assert gave["pictures"][0]["picture"].startswith("<svg") and len(gave["said"]) >= 4
    shares = [json.loads(step)["share"] for step in steps if "share" in json.loads(step)]
    assert shares == sorted(shares) and shares[-1] <= 1.0
