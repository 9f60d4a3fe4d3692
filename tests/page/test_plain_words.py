"""What a sewist is told is in her language and units, on the whole of her way, whatever she asks."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from typing import Any

import pytest

from draft.base.naming import plain
from draft.base.notes import caution, error
from draft.base.plainly import Figure, Measures, OfCloth, Parts, Sentence, mm, of_sizes, sentence
from draft.base.units import Kind
from draft.drafting.request import Request
from draft.page.bench import Bench
from draft.page.crew import _refused
from draft.page.hand import answered
from draft.page.page_verbs import VERBS
from draft.page.sewing.garment_at_hand import planned, words_asked
from draft.page.sewing.in_plain_words import in_plain_words
from draft.paper.drawing.wording import Wording
from draft.plan.library import bundled_patterns
from tests.page.odd_asks import OddAsks
from tests.project.checkout import ROOT

ENGLISH = re.compile(r"\b(?:the|of|and|is|are|for|with|would|must|to|from|size|sizes|made|cloth|too|at least)\b")
"""Words that no German sentence has."""

HERS = {"bust_girth": "98 cm", "waist_girth": "83 cm", "hip_girth": "104 cm", "stature": "168 cm"}


def told(verb: str, asked: dict[str, Any], bench: Bench) -> list[dict[str, Any]]:
    """The notes that come of an ask, whether it gives anything or not; a fault of ours is none."""
    said = answered(VERBS, {"verb": verb, "asked": asked}, bench)
    assert not said.get("fault"), (verb, asked, said)
    return list(said.get("notes") or said["gave"].get("notes", []))


def in_german(notes: list[dict[str, Any]]) -> None:
    """Each is said in plain words, and none of them is English."""
    for note in notes:
        assert note["about"], note
        for text in (note["message"], *note["hints"]):
            assert not ENGLISH.search(text), text
            assert not {"`", "_", "{"} & set(text), text


def test_nothing_is_english_on_a_german_way() -> None:
    bench, seen = Bench(), set()
    odd = OddAsks(3, bench)
    for garment in bundled_patterns():
        for _ in range(2):
            notes = told("drawn", odd.about(garment), bench)
            in_german(notes)
            seen |= {note["about"] for note in notes}
    assert len(seen) > 5


@pytest.mark.slow
def test_nothing_is_english_on_many_german_ways() -> None:
    bench = Bench()
    odd = OddAsks(11, bench)
    for number in range(40 * len(bundled_patterns())):
        asked = odd.about(bundled_patterns()[number % len(bundled_patterns())])
        for verb in ("drawn", "sit", *(("amount", "count_pages") if number % 7 == 0 else ())):
            in_german(told(verb, asked | ({"pages": ["a4"]} if verb == "count_pages" else {}), bench))


@pytest.mark.parametrize(
    ("verb", "more"),
    [
        ("drawn", {"styles": {"sleeve": "wings"}}),
        ("drawn", {"styles": {"wings": "long"}}),
        ("drawn", {"styles": {"bust_ease": "9 m"}}),
        ("drawn", {"styles": {"bust_ease": "wide"}}),
        ("drawn", {"figure": "purple"}),
        ("drawn", {"figure": "sloping shoulders, square shoulders"}),
        ("drawn", {"figure": "sloping shoulders", "measures": {**HERS, "shoulder_slope": "22 deg"}}),
        ("drawn", {"name": "a/b"}),
        ("drawn", {"unwashed": True}),
        ("drawn", {"measures": "98"}),
        ("drawn", {"measures": {}, "sizes": ["QQ"]}),
        ("drawn", {"measures": {"bust_girth": "9 km"}}),
        ("drawn", {"measures": {"bust_girth": "98"}}),
        ("drawn", {"cloth": {"name": "purple"}}),
        ("drawn", {"cloth": {"stretch_across": "far"}}),
        ("drawn", {"cloth": {"stretch_across": "50"}}),
        ("drawn", {"allowance": "9 cm"}),
        ("amount", {"widths": ["purple"]}),
        ("amount", {"widths": ["90 m"]}),
        ("keep_person", {"name": "Ines"}),
        ("on_form", {"arms": 500}),
        ("drawn", {"garment": "purple"}),
        ("card", {"garment": "purple"}),
    ],
)
def test_what_nobody_could_mean_is_told_in_german(verb: str, more: dict[str, Any]) -> None:
    asked = {"garment": "marlpit", "measures": HERS, "units": "cm", "language": "de"}
    notes = told(verb, asked | more, Bench())
    assert notes
    in_german(notes)


def test_lengths_are_in_her_units() -> None:
    note = caution("x", None, plainly=of_sizes("seam_does_not_fit", ("S", "M"), _both(), seam="side", off=mm(12.7)))
    (german,), (inches,) = (in_plain_words([note], Wording(*spoken)) for spoken in (("de", "cm"), ("en", "in")))
    assert german.message.endswith("Eine ist 1,3 cm zu lang (Größen S, M).")
    assert "one is 1/2 in too long" in inches.message


def test_nothing_that_is_told_reads_as_nothing() -> None:
    note = caution("x", None, plainly=sentence("wash_evens_out", seam="side", off=mm(0.4)))
    for units, least in (("cm", "0.1 cm"), ("in", "1/8 in")):
        assert least in in_plain_words([note], Wording("en", units))[0].message  # type: ignore[arg-type]


def test_measures_that_are_missing_are_one_note() -> None:
    notes = [
        error("x", plainly=sentence("measures_missing", measures=Measures((one,)))) for one in ("stature", "bust_girth")
    ]
    (one,) = in_plain_words(notes, Wording("de", "cm"))
    assert one.message == "Es fehlt noch: Körperhöhe und Brustumfang."


def test_what_the_server_itself_says_is_a_key_in_every_language() -> None:
    (note,) = _refused("page_is_busy", "too many people ask at once")["notes"]
    assert note["say"] == "notes.page_is_busy"
    assert all(Wording(language).has(note["say"]) for language in ("en", "de"))


def _both() -> Any:
    import numpy as np

    return np.array([True, True])


# ---- the catalogue holds every sentence that is asked of it


def _calls(names: set[str], where: str = "draft") -> Iterator[tuple[str, ast.Call]]:
    for file in sorted((ROOT / where).rglob("*.py")):
        text = file.read_text("utf-8")
        if not any(f"{name}(" in text for name in names):
            continue
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names:
                yield str(file.relative_to(ROOT)), node


def test_every_sentence_and_advice_is_in_the_catalogue() -> None:
    words, asked = Wording("en").texts(("notes.",)), set[str]()
    for _, call in _calls({"sentence", "of_sizes", "_refused"}):
        asked |= {one.value for one in call.args if isinstance(one, ast.Constant) and isinstance(one.value, str)}
    keys = {key for key in asked if re.fullmatch(r"[a-z]+(_[a-z]+)+", key)}
    assert len(keys) > 60
    assert not {key for key in keys if f"notes.{key}" not in words}


TEXT_ALONE = {
    "draft/checks/extent.py": 1,
    "draft/checks/left_open.py": 1,
    "draft/checks/loose_edges.py": 1,
    "draft/checks/seam_order.py": 2,
}
"""Checks of what a text says whatever the body, which its designer mends before anybody has it; how many a file."""


def test_every_check_says_to_a_sewist_what_it_found() -> None:
    silent: dict[str, int] = {}
    for file, call in _calls({"caution", "error", "remark"}, "draft/checks"):
        if "plainly" not in {word.arg for word in call.keywords}:
            silent[file] = silent.get(file, 0) + 1
    assert silent == TEXT_ALONE


@pytest.mark.parametrize("garment", bundled_patterns())
def test_what_a_designer_promises_is_said_in_german_too(garment: str) -> None:
    """The words of relations and promises, and what would help: a sewist reads them where her measures break one."""
    bench = Bench()
    found = planned(Request(garment), bench)
    german = words_asked({"language": "de", "units": "cm"}, found, bench)
    relations = [*found.plan.checks, *(one for block in found.plan.solves for one in block.relations)]
    said = {text for one in relations for text in (one.words, one.fix) if text}
    assert not {text for text in said if german.named(text) == plain(text)}


def test_each_sort_of_part_is_filled_in() -> None:
    shares = {"has": 0.5, "low": 0.9, "high": 1.0}
    parts: Parts = {name: Figure(value, Kind.NUMBER) for name, value in shares.items()}
    said = Sentence("cloth_does_not_suit", parts | {"property": OfCloth("recovery")})
    (note,) = in_plain_words([caution("x", plainly=said)], Wording("de", "cm"))
    assert note.message == "Rücksprung: Ihr Stoff hat 50 %, und zu diesem Kleidungsstück passen 90 % bis 100 %."


def test_drawings_are_in_german_too() -> None:
    """What stands on the pieces, and on the garment beside her form, of somebody who gave no name."""
    asked = {"garment": "marlpit", "measures": HERS, "units": "cm", "language": "de"}
    bench = Bench()
    drawings = [VERBS["drawn"](asked, bench)["pieces"], VERBS["sit"](asked, bench)["picture"]]
    for drawing in drawings:
        said = re.findall(r">([^<>]{3,})</t", drawing)
        assert "nach Maß" in " ".join(said)
        assert not [text for text in said if ENGLISH.search(text)]


def test_what_is_seen_in_the_mirror_is_said_in_german() -> None:
    bench = Bench()
    german, english = (VERBS["sayings"]({"language": language}, bench)["sayings"] for language in ("de", "en"))
    for one, other in zip(german, english, strict=True):
        assert one["words"] == other["words"]
        assert one["title"] != other["title"] and one["seen"] != other["seen"]
