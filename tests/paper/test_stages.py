"""In every step of every bundled pattern nothing is sewn before what it needs is prepared, laid and pinned.

The order itself is common practice: prepare, lay, pin, sew, trim, press. It is checked by the words as printed,
so that a sentence that tells two things in one, or stands at the wrong stage, is found.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path

import pytest

import draft.paper.booklet as booklet
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import SewingStep, sewing_order
from draft.paper.booklet.sewing_section import sentences_of
from draft.paper.booklet.stages import STAGE_OF, Sentence, Stage
from draft.paper.drawing.spoken_languages import languages
from draft.paper.drawing.wording import Wording
from draft.paper.flat.bands import bands
from draft.seams.joins_in_order import joins_in_order
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS

STYLES: dict[str, tuple[dict[str, str], ...]] = {"marlpit": ({}, {"neckline": "vee"})}
PREPARES = re.compile(
    r"^(Lay (?!the fold|the closed|the other|one half)|Fold |Pin |Put |Draw the (long|threads)|Neaten )"
)
SEWS = re.compile(r"^(Sew|Stitch|Go on from|Work the|Work a buttonhole on each)\b")
AFTER = re.compile(r"^(Trim|Press the (allowances|dart)|Snip|Cut through|Fold (the|each) ring)")


@cache
def _steps(pattern: str, styles: tuple[tuple[str, str], ...], language: str) -> list[tuple[SewingStep, list[Sentence]]]:
    facts = BookletFacts(bundled(pattern, "M", **dict(styles)), (0,), Wording(language))
    found = {band.piece.name: band for band in bands(facts.garment, 0)}
    return [(step, sentences_of(step, facts, found)) for step in sewing_order(facts.garment)]


def _all(language: str) -> list[tuple[str, SewingStep, list[Sentence]]]:
    return [
        (pattern, step, said)
        for pattern in PATTERNS
        for styles in STYLES.get(pattern, ({},))
        for step, said in _steps(pattern, tuple(styles.items()), language)
    ]


@pytest.mark.parametrize("language", languages())
def test_each_step_goes_from_what_is_prepared_to_what_is_pressed(language: str) -> None:
    told = _all(language)
    assert len(told) > 100
    for pattern, step, said in told:
        stages = [one.stage for one in said]
        assert stages == sorted(stages), (pattern, step.name)


def test_nothing_is_laid_pinned_or_neatened_once_the_needle_has_begun() -> None:
    joins = [(pattern, step, said) for pattern, step, said in _all("en") if step.sort == "join"]
    assert len(joins) > 60
    for pattern, step, said in joins:
        texts = [one.text for one in said]
        sewn = [k for k, text in enumerate(texts) if SEWS.match(text)]
        prepared = [k for k, one in enumerate(said) if PREPARES.match(one.text) and one.stage < Stage.TRIMMED]
        after = [k for k, text in enumerate(texts) if AFTER.match(text) and said[k].stage >= Stage.TRIMMED]
        if any(text.startswith("Sew two rows") for text in texts):
            sewn = sewn[1:]
        assert not sewn or not prepared or max(prepared) < min(sewn), (pattern, step.name, texts)
        assert not sewn or not after or max(sewn) < min(after), (pattern, step.name, texts)


def test_every_seam_is_sewn_in_one_sentence_that_stands_before_the_iron() -> None:
    """None of them both lays pieces on one another and sews them: then what must be pinned between comes too late."""
    for pattern, step, said in _all("en"):
        if step.sort == "join" and step.join and not step.join.onto:
            needle = [one for one in said if one.stage == Stage.SEWN]
            assert len(needle) == 1 and needle[0].text.startswith(("Sew: ", "Stitch: ")), (pattern, step.name)
            laid = [one.text for one in said if one.stage <= Stage.PINNED and not one.text.startswith("Sew two rows")]
            assert laid or step.name.endswith("folds"), (pattern, step.name)
            assert not [text for text in laid if re.search(r"\band (sew|stitch)\b", text)], (pattern, step.name)


def test_a_dart_is_folded_sewn_and_only_then_snipped_and_pressed() -> None:
    for pattern in ("ropewalk", "lockside", "boatyard"):
        for step, said in _steps(pattern, (), "en"):
            if step.sort == "takeups" and any(one.stage == Stage.SEWN for one in said):
                begun = [one.text.split(" ")[0] for one in said]
                assert begun[0] == "Fold" and begun.index("Stitch:") < begun.index("Press"), (pattern, begun)


def test_gathers_are_sewn_before_the_seam_and_drawn_up_once_it_is_pinned() -> None:
    (said,) = [said for step, said in _steps("lockside", (), "en") if step.name == "yoke_front"]
    texts = [one.text for one in said]
    order = [
        next(k for k, text in enumerate(texts) if begin in text) for begin in ("two rows", "Lay ", "Draw ", "Sew:")
    ]
    assert order == sorted(order)


def test_every_sentence_of_a_step_has_its_stage() -> None:
    """Each key that the steps say stands in the table, and each of the table is said in every language."""
    folder = Path(booklet.__file__).parent
    code = "\n".join(file.read_text(encoding="utf-8") for file in sorted(folder.glob("*.py")))
    said = set(re.findall(r"(?:staged|by_cloth)\(\s*f?\"(\w+)\"", code))
    assert len(said) > 40
    assert not {key for key in said if not any(key.startswith(known) or known.startswith(key) for known in STAGE_OF)}
    for language in languages():
        file = folder.parent / "languages" / f"{language}.toml"
        texts = tomllib.loads(file.read_text(encoding="utf-8"))["sewing"]
        lacking = {key for key in STAGE_OF if not {key, f"{key}_woven", f"{key}_each"} & texts.keys()}
        assert not lacking, (language, lacking)


def test_seams_of_the_shelf_are_all_told() -> None:
    for pattern in PATTERNS:
        told = {step.name for step, _ in _steps(pattern, (), "en") if step.sort == "join"}
        assert told == {join.name for join in joins_in_order(bundled(pattern, "M").garment)}
