"""What the form stands through is tried once more on a finer mesh: a thin arm was caught between its triangles."""

from __future__ import annotations

import pytest

from draft.sitting import sitting_of as module
from draft.sitting.sitting_of import FINER, Asked, Subject, sitting_of
from draft.toile.dressed import Refused
from draft.toile.sewn import Sewn
from draft.toile.why_not import why
from tests.asking import bundled


@pytest.mark.parametrize(("key", "tries"), [("why_stands_through", 2), ("why_pinched_by_arm", 1)])
def test_only_what_the_form_stands_through_is_tried_again(
    monkeypatch: pytest.MonkeyPatch, key: str, tries: int
) -> None:
    tried: list[Sewn] = []

    def settled(subject: Subject, asked: Asked, form: object, sewn: Sewn, *more: object) -> Refused:
        tried.append(sewn)
        return Refused(why(key, mm_by=5.0))

    monkeypatch.setattr(module, "_settled", settled)
    drafted = bundled("marlpit", "M")
    found = sitting_of(Subject(drafted.garment, 0, drafted.bodies), Asked(edge=30.0))
    assert isinstance(found, Refused) and found.reason.key == key
    assert [sewn.edge_length for sewn in tried] == pytest.approx([30.0, 30.0 * FINER][:tries])
