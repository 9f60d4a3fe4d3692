"""Whatever is done to a pattern's text, it gives a plan or a list of problems, and soon."""

from __future__ import annotations

import random
import re
import time
from collections.abc import Callable
from functools import cache

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems, Source, show
from draft.base.resources import folder
from draft.bodies.bodies import Bodies
from draft.bodies.chart import read_chart
from draft.drafting.drafting import Drafted, draft_plan
from draft.language.reader import read
from draft.plan.library import Texts, read_texts
from draft.plan.make import plan_texts
from draft.plan.plan import Plan
from tests.pieces.bundled import PATTERNS

SECONDS = 3.0  # of the process: a sound pattern takes a twentieth of one
MODEST = settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@cache
def texts_of(name: str) -> tuple[str, Texts]:
    path = folder("pieces") / f"{name}.piece"
    return path.read_text(encoding="utf-8"), read_texts(path)


@cache
def sizes() -> Bodies:
    return read_chart(folder("pieces") / "women.csv").select(["S", "XL"])


def planned(name: str, text: str) -> Plan | None:
    """The plan of a text in the place of a bundled one, or None with problems that can be shown."""
    _, texts = texts_of(name)
    try:
        return plan_texts(Texts(read(Source("mangled.piece", text)), texts.used, texts.beside), {})
    except Problems as problems:
        assert problems.notes
        assert show(problems.notes)
        return None


def try_to_draft(name: str, text: str) -> Drafted | None:
    """The same, drafted where there is a plan; whoever is drawn has lines that are finite."""
    start = time.process_time()
    plan = planned(name, text)
    try:
        drafted = draft_plan(plan, sizes()) if plan else None
    except Problems as problems:
        assert show(problems.notes)
        drafted = None
    assert time.process_time() - start < SECONDS
    if drafted:
        assert show(drafted.notes) or drafted.outcome.drafted.all()
        edges = [edge for piece in drafted.garment.pieces for edge in piece.edges]
        assert all(np.isfinite(edge.segments).all() for edge in edges)
    return drafted


def lines_lost(text: str, order: random.Random) -> str:
    lines = text.split("\n")
    return "\n".join(line for line in lines if order.random() > 0.03)


def lines_twice(text: str, order: random.Random) -> str:
    lines = text.split("\n")
    return "\n".join(line for line in lines for _ in range(1 + (order.random() < 0.03)))


def lines_moved(text: str, order: random.Random) -> str:
    lines = text.split("\n")
    for _ in range(3):
        lines.insert(order.randrange(len(lines)), lines.pop(order.randrange(len(lines))))
    return "\n".join(lines)


TOKEN = re.compile(r'\w+|"[^"\n]*"|[^\w\s]')


def tokens_changed(text: str, order: random.Random) -> str:
    words = list(TOKEN.finditer(text))
    for _ in range(order.randint(1, 4)):
        at, other = order.choice(words), order.choice(words)[0]
        text = text[: at.start()] + other + text[at.start() + len(at[0]) :]
    return text


def tokens_lost(text: str, order: random.Random) -> str:
    found = order.choice(list(TOKEN.finditer(text)))
    return text[: found.start()] + text[found.end() :]


def indents_changed(text: str, order: random.Random) -> str:
    lines = text.split("\n")
    for _ in range(3):
        k = order.randrange(len(lines))
        lines[k] = " " * order.randrange(12) + lines[k].lstrip()
    return "\n".join(lines)


CHANGES = (lines_lost, lines_twice, lines_moved, tokens_changed, tokens_lost, indents_changed)


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__)
@MODEST
@given(seed=st.integers(0, 2**32), name=st.sampled_from(PATTERNS))
def test_a_mangled_pattern_is_drafted_or_explained(
    change: Callable[[str, random.Random], str], seed: int, name: str
) -> None:
    text, _ = texts_of(name)
    try_to_draft(name, change(text, random.Random(seed)))


@MODEST
@given(st.integers(0, 10**6), st.text(max_size=12), st.sampled_from(PATTERNS))
def test_any_characters_put_into_a_pattern_are_read_or_explained(place: int, odd: str, name: str) -> None:
    text, _ = texts_of(name)
    place %= len(text)
    try_to_draft(name, text[:place] + odd + text[place:])


@MODEST
@given(st.text(alphabet=st.sampled_from('abpiece \n\t():=,"#+-*/.0123456789cm%é⌁\u200b'), max_size=120))
def test_any_text_at_all_is_read_or_explained(text: str) -> None:
    planned("marlpit", text)


@pytest.mark.parametrize(
    ("begun", "repeated", "ended"),
    [
        ("let\n    a = ", "(", ""),
        ("let\n    a = ", "-", "1 cm"),
        ("let\n    a = 1 cm", " + 1 cm", ""),
        ("let\n    a = ", "1 cm + (", "1 cm"),
        ("let\n    a = by b: at 0 1", ", at 1 2", ""),
        ("", "piece a\n", ""),
        ("", "let\n", ""),
        ("", "\t", "x"),
        ("body\n    a", ", a", ""),
        ("let\n", "    a = 1 cm\n", ""),
        ('pattern p\n    title "', "x", ""),
        ("let\n    ", "a", " = 1 cm"),
        ("let\n    a = ", "9", " cm"),
        ("", ")\n", ""),
        ("let\n", "        a = 1 cm\n    b = 2 cm\n", ""),
        ("piece p\n    outline\n        e a to b straight", ", allowance 1 cm", ""),
    ],
)
def test_a_text_that_goes_on_and_on_is_refused_soon(begun: str, repeated: str, ended: str) -> None:
    start = time.process_time()
    assert planned("marlpit", begun + repeated * 5_000 + ended) is None
    assert time.process_time() - start < 10.0


def test_values_that_lean_on_one_another_many_deep_are_planned_or_refused() -> None:
    """In the order written they are planned one by one; backwards each asks for the next."""
    lines = ["    v0 = 1 cm", *(f"    v{k} = v{k - 1} + v{k - 1}" for k in range(1, 400))]
    piece = texts_of("marlpit")[0].split("\npiece back", 1)[0]
    for ordered in (lines, lines[::-1]):
        planned("marlpit", piece + "\nlet\n" + "\n".join(ordered))


def test_one_mistake_at_the_root_of_many_values_is_told_once() -> None:
    lines = [f"    v{k} = v{k - 1} + v{k - 1} + v{k - 1}" for k in range(1, 60)]
    text = 'pattern p\n    title "P"\n\nlet\n' + "\n".join(lines) + "\n    v0 = nothing_known\n"
    with pytest.raises(Problems) as caught:
        plan_texts(Texts(read(Source("p.piece", text + PIECE)), (), folder("pieces")), {})
    assert [note.message for note in caught.value.notes] == ["nothing here is called `nothing_known`"]


PIECE = """
piece patch
    points
        a at 0, 0
        b at 1 cm, 0
        c at 0, 1 cm
    outline
        one   a to b straight
        two   b to c straight
        three c to a straight
    cut 1
"""
