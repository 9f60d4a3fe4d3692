"""Cords at neck and hood are warned of where a child wears the garment, or where it has a hood, and nowhere else."""

from __future__ import annotations

from dataclasses import replace

import pytest

from draft.bodies.wearers import CHILDREN
from draft.paper.booklet import BookletFacts
from draft.paper.booklet.for_children import no_cords
from draft.paper.drawing.wording import Wording
from tests.asking import bundled


def _said(name: str, language: str, for_children: bool = False) -> list[str]:
    drafted = bundled(name, "M")
    if for_children:
        drafted = replace(drafted, plan=replace(drafted.plan, wearers=CHILDREN))
    return no_cords(BookletFacts(drafted, (0,), Wording(language)))


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_hood_and_a_child_are_warned_of_cords(language: str) -> None:
    assert _said("tidemill", language) == []
    (hood,), (child,) = _said("hooded", language), _said("tidemill", language, for_children=True)
    assert "EN 14682" in hood and "EN 14682" in child and hood != child
    assert _said("hooded", language, for_children=True) == [child]
