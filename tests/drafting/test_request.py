"""What is asked for as plain data: it compares by what it says, and its texts are read or refused in one place."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.base.resources import folder
from draft.drafting.planned import plan_for, texts_for
from draft.drafting.request import ALL_SIZES, Request, RequestError, Whom, sizes_in, styles_in


def test_a_request_is_what_it_says() -> None:
    order = Request("marlpit", Whom(sizes=("M",)), styles_in(["neckline=vee"]), "rib")
    assert order == Request("marlpit", Whom(sizes=sizes_in("M")), {"neckline": "vee"}, "rib")
    assert order != replace(order, unwashed=True)
    assert len({order, replace(order, pattern="marlpit"), Request("marlpit")}) == 2


def test_a_batch_differs_in_whom_alone() -> None:
    first = Request("marlpit", Whom(answers=("bust_girth=98cm",)), {"neckline": "vee"})
    second = replace(first, whom=Whom(like="bust M, hip XL"))
    assert (second.pattern, second.styles) == (first.pattern, first.styles)
    assert first.whom.is_person and second.whom.is_person and not ALL_SIZES.is_person


def test_sizes_are_read_from_a_text() -> None:
    assert sizes_in(" M, L,,M") == ("M", "L", "M")
    assert sizes_in(",") == () and sizes_in(None) is None


@pytest.mark.parametrize("text", ["neckline", "=vee", "neckline=", " = ", ""])
def test_what_is_no_style_is_refused(text: str) -> None:
    with pytest.raises(RequestError, match="is not NAME=VALUE"):
        styles_in([text])


def test_styles_are_read_from_texts_each_once() -> None:
    assert styles_in([" neckline = vee", "length=4=5"]) == {"neckline": "vee", "length": "4=5"}
    with pytest.raises(RequestError, match=r"`--style neckline=\.\.\.` is given twice"):
        styles_in(["neckline=vee", "neckline = crew"])


def test_a_plan_says_what_it_was_made_from() -> None:
    request = Request("marlpit", styles={"neckline": "vee"}, fabric="rib")
    planned = plan_for(request)
    assert planned.request is request
    assert planned.chart == folder("pieces") / "women.csv"
    assert planned.fabric and planned.plan.cloth["stretch_across"] == planned.fabric.values["stretch_across"]
    assert next(style for style in planned.plan.styles if style.name == "neckline").set_to == "vee"
    assert plan_for(Request("marlpit")).fabric is None


def test_texts_that_are_read_already_are_not_read_again(tmp_path: Path) -> None:
    texts = texts_for("marlpit")
    assert plan_for(Request("marlpit"), texts).texts is texts
    with pytest.raises(Problems):
        texts_for(str(tmp_path / "none.piece"))
