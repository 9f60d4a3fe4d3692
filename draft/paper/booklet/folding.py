"""What is said of darts and pleats: how they are sewn, and which way each is pressed, as the edge was trued for it."""

from __future__ import annotations

from draft.garment.garment import InnerDart, Piece, Takeup
from draft.paper.booklet.edges_marked import marked
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.order import SewingStep
from draft.paper.booklet.pressed_towards import edges_towards
from draft.paper.booklet.stages import Sentence, by_cloth, staged

_FOLD = "fold"
_SAID = {
    "darts": ("darts", "darts_sewn"),
    "pleats": ("pleats",),
    "inner_darts": ("inner_darts", "inner_darts_sewn", "inner_darts_snipped"),
    "bowed_darts": ("bowed_darts", "bowed_darts_snipped"),
}
"""What is said of each sort of take-up, by the keys of its sentences."""


def takeups_title(step: SewingStep, facts: BookletFacts) -> str:
    """`Darts of the front`, or pleats, or both."""
    named = facts.wording.named
    kinds = sorted({"darts" if takeup.to is not None else "pleats" for takeup in step.takeups} | _inner(step))
    return facts.wording.say(f"sewing.title_{'_and_'.join(kinds)}", piece=named(step.pieces[0].title))


def takeups_sewn(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """How the darts and pleats of a piece are sewn and pressed."""
    kinds = {"darts" if takeup.to is not None else "pleats" for takeup in step.takeups}
    kinds |= {"inner_darts" for _ in step.inner_darts}
    bows = [*(one.bow_first for one in step.takeups), *(one.bow_first for one in step.inner_darts)]
    if any(bow is not None for bow in bows):
        kinds |= {"bowed_darts"}
    said = [staged(key, facts) for kind, keys in _SAID.items() if kind in kinds for key in keys]
    stitch = [by_cloth("stitch_plain", facts)] if {"darts", "inner_darts"} & kinds else []
    return [*said, *stitch, *_pressed(step, facts)]


def _pressed(step: SewingStep, facts: BookletFacts) -> list[Sentence]:
    """Which way each dart is pressed: in one sentence where all of a piece go the same way, as a piece names none.

    Which way a pleat lies its arrow says on the paper.
    """
    piece = step.pieces[0]
    darts: list[Takeup | InnerDart] = [*(one for one in step.takeups if one.to is not None), *step.inner_darts]
    said = {dart.name: _way(dart, piece, facts) for dart in darts}
    if len(set(said.values())) > 1:
        return [_pressed_to(("press_dart", "press_dart_fold"), way, piece, facts, name) for name, way in said.items()]
    alone = len(said) == 1 and piece.copies() == 1
    keys = ("press_dart_one", "press_dart_one_fold") if alone else ("press_darts_to", "press_darts_fold")
    return [_pressed_to(keys, way, piece, facts) for way in set(said.values())]


def _way(dart: Takeup | InnerDart, piece: Piece, facts: BookletFacts) -> str:
    """The edges that a dart is pressed towards as they are marked; `_FOLD` where that is the fold, or nothing."""
    towards = edges_towards(dart, piece, facts.garment)
    on_fold = bool(towards) and all(piece.edge(part.edge).on_fold for part in towards)
    return _FOLD if on_fold else marked(towards, facts)


def _pressed_to(keys: tuple[str, str], way: str, piece: Piece, facts: BookletFacts, name: str = "") -> Sentence:
    """`keys` are those of a way by its edges, and of the fold."""
    if not way:
        return staged("press_darts", facts)
    fields = {"name": facts.wording.named(name)} if name else {}
    if way == _FOLD:
        return staged(keys[1], facts, piece=facts.piece(piece), **fields)
    return staged(keys[0], facts, towards=way, **fields)


def _inner(step: SewingStep) -> set[str]:
    return {"darts"} if step.inner_darts else set()
