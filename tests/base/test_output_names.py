"""Output files have names that every file system takes, and no two fall together on one that knows no case."""

from __future__ import annotations

import pytest

from draft.base.output_names import LONGEST, OutputNames, file_names, safe_name

REFUSED = set('<>:"/\\|?*') | {chr(code) for code in range(32)}


@pytest.mark.parametrize(
    "text",
    ["CON", "con", "nul", "NUL.svg", "aux.tar.gz", "COM1", "lpt9", "COM¹", "a<b>", 'x"y|z?*', "a:b", "trailing.",
     "trailing ", ".hidden", "..", "", " ", "-rf", "a/../b", "é" * 300, "😀", "\0", "M\u202eL", "../../etc/passwd"],
)  # fmt: skip
def test_a_name_is_taken_by_every_system(text: str) -> None:
    for name in (safe_name(text), safe_name(text, "lay")):
        assert name and not set(name) & REFUSED and len(name.encode()) <= LONGEST + 5
        assert name == name.strip(" .-") and name.isprintable() and ".." not in name.strip(".")[:2]
        device = name.partition(".")[0].lower()
        assert device not in {"con", "prn", "aux", "nul"} and not (device[:3] in ("com", "lpt") and len(device) == 4)


def test_usual_names_stay_as_they_are() -> None:
    for name in ("M", "3XL", "XS-S", "42", "Ines", "Łucja", "1.5", "Conny", "comb", "nuller"):
        assert safe_name(name) == name


def test_no_two_names_fall_together() -> None:
    sizes = ["m", "M", "a b", "a-b", "A/B", "A-B-2", "nest", "Nest", "CON", "con", "ß", "SS", ""]
    names = file_names(sizes)
    assert len({name.casefold() for name in names} | {"nest"}) == len(sizes) + 1
    assert names[:3] == ["m", "M-2", "a-b"]
    several = OutputNames()
    assert [several.of("x", "lay") for _ in range(3)] == ["x", "x-2", "x-3"]
