"""What the tutorial asks of its reader's hands."""

from __future__ import annotations

from draft.page.designing.merging import merged

BEFORE = """\
body
    bust_girth

piece front
    points
        a  at 0, 0
        b  at 1 cm, 0
    outline
        low  a to b
            curve to c
            curve
    cut 1
"""


def test_a_new_line_goes_under_its_heading() -> None:
    after = merged(BEFORE, "body\n    hip_girth\npiece front\n    points\n        c  at 2 cm, 0\n")
    assert "body\n    bust_girth\n    hip_girth\n" in after
    assert "        b  at 1 cm, 0\n        c  at 2 cm, 0\n" in after


def test_a_line_of_the_same_name_takes_the_place_of_the_old() -> None:
    after = merged(BEFORE, "piece front\n    points\n        a  at 5 cm, 0\n")
    assert "        a  at 5 cm, 0\n        b  at 1 cm, 0\n" in after
    assert "a  at 0, 0" not in after


def test_a_line_of_several_parts_is_replaced_with_them() -> None:
    after = merged(BEFORE, "piece front\n    outline\n        low  a to b\n            straight\n")
    assert "        low  a to b\n            straight\n    cut 1\n" in after
    assert "curve" not in after


def test_a_new_heading_goes_to_the_end() -> None:
    assert merged(BEFORE, "join\n    side  a.b to c.d\n").endswith("    cut 1\n\njoin\n    side  a.b to c.d\n")
