"""A number that is moved is drafted from the plan before: it comes out as the text itself does, to the last bit."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Problems, Source
from draft.base.resources import folder
from draft.drafting.checked import draft_unchecked
from draft.drafting.drafting import Drafted
from draft.drafting.planned import Planned
from draft.drafting.request import Request, Whom
from draft.editor.analysis import analyse
from draft.page.bench import Bench
from draft.page.designing import VERBS
from draft.page.designing.at_hand import AtHand, Base
from draft.page.designing.number_moved import literals, moved
from draft.plan.library import bundled_files

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?=[ \t]*(?:mm|cm|deg|%)(?!\w))")
WHOM = Whom(sizes=("S", "XL"))


def hand_of(text: str, name: str) -> AtHand:
    now = analyse(Source(f"{name}.piece", text), folder("pieces"))
    if now.plan is None or now.texts is None:
        raise Problems(now.notes)
    return AtHand(now, Planned(Request(name, WHOM), now.texts, None, now.plan))


def numbers(text: str) -> list[re.Match[str]]:
    rows = [(found, text[text.rfind("\n", 0, found.start()) + 1 : found.start()]) for found in NUMBER.finditer(text)]
    return [found for found, before in rows if "#" not in before and before.count('"') % 2 == 0]


def alike(one: Drafted, other: Drafted) -> bool:
    """Whether two drafts have the same lines to the last bit."""
    if (one.outcome.drafted != other.outcome.drafted).any():
        return False
    good = one.outcome.drafted
    return all(
        np.array_equal(edge.segments[good], same.segments[good])
        for piece, twin in zip(one.garment.pieces, other.garment.pieces, strict=True)
        for edge, same in zip(piece.edges, twin.edges, strict=True)
    )


@pytest.mark.parametrize("name", ["marlpit", "netloft", "ropewalk"])
def test_every_number_of_a_pattern_moves_as_the_text_does(name: str) -> None:
    text = bundled_files()[name].read_text("utf-8")
    base, tried = Base((), hand_of(text, name)), 0
    for found in numbers(text)[:: 5 if name == "marlpit" else 7]:
        value = f"{float(found[0]) * 1.03 + 0.1:.2f}"
        after = text[: found.start()] + value + text[found.end() :]
        try:
            whole = draft_unchecked(hand_of(after, name).planned)
        except Problems:
            continue  # beyond a limit: the text says so itself, once the number rests
        quick = base.with_moved(after)
        if quick is not None:
            assert alike(quick, whole), text[: found.start()].rsplit("\n", 1)[-1]
            tried += 1
    assert tried > 5


def test_only_a_number_of_its_kind_is_moved() -> None:
    text = "a = 3 cm\nb = 4 deg # 5 cm\n"
    source = "let\n    a = 3 cm\n    b = 4 deg\n"
    known = literals(analyse(Source("x.piece", f"pattern x\n{source}"), Path()).file)  # type: ignore[arg-type]
    before = f"pattern x\n{source}"
    (instead,) = moved(before, before.replace("3 cm", "3.4 cm"), known).items()  # type: ignore[union-attr]
    assert instead[1] == 34.0 and instead[0].text == "3 cm"
    assert moved(before, before.replace("3 cm", "1/2 in"), known) is not None
    for other in ("3 deg", "3", "3 cm + 1 cm", "c", ""):
        assert moved(before, before.replace("3 cm", other), known) is None
    assert moved(before, before.replace("3 cm", "5 cm").replace("4 deg", "5 deg"), known) is None
    assert moved(before, before, known) is None and moved(text, text[:-1], known) is None


def test_a_moved_number_is_answered_from_the_text_before_and_a_rest_by_the_text_itself() -> None:
    bench, text = Bench(), bundled_files()["marlpit"].read_text("utf-8")
    after = text.replace("scoop 3 cm, boat", "scoop 4 cm, boat")
    asked = {"garment": "marlpit", "moving": True}
    assert "moving" not in VERBS["nest"]({**asked, "text": text}, bench)
    quick = VERBS["nest"]({**asked, "text": after}, bench)
    whole = VERBS["nest"]({**asked, "text": after, "moving": False}, bench)
    assert quick.pop("moving") and quick == whole
    other = VERBS["nest"]({**asked, "text": after.replace("# Widths", "mine = 3 cm\n    # Widths")}, bench)
    assert "moving" not in other
