"""What a sheet says to change is changed, and the garment looked at again: it sits better where it was told to."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from draft.answers.sit_cases import Case, cases_of
from draft.drafting.request import Request, Whom
from draft.paper.drawing.wording import Wording
from draft.sitting.reading import LevelRead
from draft.sitting.sitting_of import COARSE, Asked, Sitting, sitting_of

QUICKLY = Asked(reach=None, spread=False, edge=COARSE)
INES = {"bust_girth": "92 cm", "waist_girth": "74 cm", "hip_girth": "100 cm", "stature": "166 cm"}
FULLER = INES | {"bust_girth": "104 cm", "high_bust_girth": "92 cm", "under_bust_girth": "80 cm"}
HIPS = INES | {"hip_girth": "120 cm", "waist_girth": "80 cm"}


def _case(folder: Path, measures: dict[str, str], try_on: str = "", fabric: str | None = None, **styles: str) -> Case:
    file = folder / "ines.toml"
    file.write_text('name = "Ines"\n[measures]\n' + "".join(f'{k} = "{v}"\n' for k, v in measures.items()))
    request = Request("marlpit", Whom(body=file), styles, fabric)
    return cases_of(request, Wording("en", "cm"), (try_on,) if try_on else ())[0][-1]


def _sat(case: Case) -> Sitting:
    found = sitting_of(case.subject, QUICKLY)
    assert isinstance(found, Sitting), found
    return found


def _told(found: Sitting) -> dict[str, dict[str, object]]:
    return {one.key: dict(one.figures) for one in found.told if one.advice}


def _level(found: Sitting, name: str) -> LevelRead:
    level = found.reading.level(name)
    assert level is not None
    return level


def test_a_size_too_small_is_told_and_the_one_to_take_is_none(tmp_path: Path) -> None:
    small = _sat(_case(tmp_path, INES, "XS"))
    assert small.told[0].key == "size_too_small"
    take = _told(small)["take_size"]["plain_size"]
    right = _sat(_case(tmp_path, INES, str(take)))
    assert _level(small, "bust").front > 0.06 > 0.03 > _level(right, "bust").front
    assert not {"size_too_small", "size_too_large", "take_size", "larger_there"} & {one.key for one in right.told}


@pytest.mark.slow
def test_a_size_too_large_is_told_and_the_one_to_take_is_none(tmp_path: Path) -> None:
    large = _sat(_case(tmp_path, INES, "3XL"))
    assert large.told[0].key == "size_too_large" and not any(level.tight for level in large.reading.levels)
    right = _sat(_case(tmp_path, INES, str(_told(large)["take_size"]["plain_size"])))
    assert (_level(large, "hip").room or 0.0) > 300 and (_level(right, "hip").room or 0.0) < 80
    assert right.told[0].key != "size_too_large"


@pytest.mark.slow
def test_going_over_to_another_size_at_the_hip_frees_it(tmp_path: Path) -> None:
    tight = _sat(_case(tmp_path, HIPS, "M"))
    advice = _told(tight)["grade_size"]
    assert advice["name_level"] == "hip" and _level(tight, "hip").stretched > 0.1
    between = Whom(like=f"bust M, waist M, hip {advice['plain_other']}", name="Ines")
    graded = cases_of(Request("marlpit", between), Wording("en", "cm"))[0][0]
    hers = _case(tmp_path, HIPS).subject.bodies
    worn = sitting_of(replace(graded.subject, bodies=hers), QUICKLY)
    assert isinstance(worn, Sitting) and _level(worn, "hip").stretched < 0.02


@pytest.mark.slow
def test_a_longer_front_hangs_level(tmp_path: Path) -> None:
    plain = _sat(_case(tmp_path, FULLER, "L"))
    longer = _told(plain)["front_hangs_short"]["mm_off"]
    assert isinstance(longer, float) and longer > 25
    lengthened = _sat(_case(tmp_path, FULLER, "L", front_longer=f"{longer / 10:.1f}cm"))
    assert abs(lengthened.reading.hem.front) < longer / 3 and "front_hangs_short" not in _told(lengthened)


@pytest.mark.slow
def test_more_ease_where_it_is_too_tight_is_less_tight(tmp_path: Path) -> None:
    close = {"bust_ease": "-6cm", "waist_ease": "0cm", "hip_ease": "-6cm"}
    tight = _sat(_case(tmp_path, INES, fabric="stable", **close))
    freer = _sat(_case(tmp_path, INES, fabric="stable", bust_ease="4cm", waist_ease="10cm", hip_ease="4cm"))
    assert {"ease_there", "more_ease"} & set(_told(tight))
    assert _level(freer, "bust").stretched < _level(tight, "bust").stretched - 0.01
    assert max(one.most for one in freer.reading.levels) < max(one.most for one in tight.reading.levels) - 0.015
    assert not {"ease_there", "more_ease"} & set(_told(freer))
