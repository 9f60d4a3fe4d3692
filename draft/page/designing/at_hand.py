"""The text that a designer has before her, with all that is known of it: kept by a worker from one ask to the next."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import field, replace
from functools import cached_property
from pathlib import Path

from draft.base.notes import Problems, error, stop_if_errors
from draft.base.record import dataclass
from draft.base.resources import folder
from draft.base.textfile import LARGEST
from draft.drafting.checked import as_asked, checked, draft_unchecked
from draft.drafting.drafting import Drafted, draft_plan
from draft.drafting.planned import Planned
from draft.drafting.request import Request, Whom
from draft.editor.analysis import Analysis
from draft.editor.open_file import OpenFile
from draft.language import tree
from draft.page.bench import Asked, Bench
from draft.page.designing.leaning import Leaning
from draft.page.designing.number_moved import literals, moved
from draft.page.designing.same_words import same_words
from draft.page.designing.whom_asked import styles_asked, whom_drawn
from draft.plan.library import bundled_files
from draft.plan.make import plan_texts

MOST = 6
"""Drafts of a desk that are kept: the text now and before, for a size and for all, in another style."""
UNSAVED = "new.piece"


@dataclass(frozen=True, eq=False)
class AtHand:
    """One text drafted for some bodies."""

    now: Analysis
    planned: Planned

    @cached_property
    def drafted(self) -> Drafted:
        """The garment, its lines not looked at yet. Raises `Problems` where it cannot be drafted."""
        return draft_unchecked(self.planned)

    @cached_property
    def checked(self) -> Drafted:
        """The garment with what all checks say."""
        return checked(self.drafted)


@dataclass(eq=False)
class Base:
    """A text as it was drafted, for whom and how: the start of drafts while a remark is written or a number moved."""

    key: tuple[object, ...]
    hand: AtHand

    @cached_property
    def literals(self) -> Mapping[int, tree.Literal]:
        """The quantities of the text by where they begin."""
        return literals(self.hand.planned.texts.main)

    @cached_property
    def leaning(self) -> Leaning:
        """What leans on each number of the text."""
        return Leaning(self.hand.drafted.plan, self.hand.drafted.outcome)

    def with_moved(self, text: str) -> Drafted | None:
        """The draft of a text in which no word, or one number alone, is other; None where more is, or nothing leans."""
        if same_words(self.hand.now.source.text, text):
            return self.hand.drafted
        instead = moved(self.hand.now.source.text, text, self.literals)
        if instead is None:
            return None
        before, planned = self.hand.drafted, self.hand.planned
        kept = self.leaning.kept(next(iter(instead)))
        found = draft_plan(before.plan, before.bodies, instead, kept)
        if not instead.is_used:
            return None
        return replace(found, planned=planned, garment=as_asked(found.garment, planned.request, before.estimates))


@dataclass(eq=False)
class Desk:
    """One file on a worker's desk."""

    file: OpenFile
    drafts: OrderedDict[tuple[object, ...], AtHand] = field(default_factory=OrderedDict)

    def at_hand(self, styles: dict[str, str], whom: Whom) -> AtHand:
        """The text as it is, drafted so. Raises `Problems` with its mistakes."""
        key = (self.file.text, tuple(sorted(styles.items())), whom)
        if key not in self.drafts:
            self.drafts[key] = AtHand(self.file.now, _planned(self.file.now, styles, whom))
            while len(self.drafts) > MOST:
                self.drafts.popitem(last=False)
        self.drafts.move_to_end(key)
        return self.drafts[key]


def quickly(asked: Asked, bench: Bench) -> Drafted | None:
    """The draft of a text in which one number at most is other since it was drafted; None where that is not all."""
    text, base = asked.get("text"), _bases(asked, bench).get("lately")
    if base is None or not isinstance(text, str) or base.key != (styles_asked(asked), whom_drawn(asked)):
        return None
    return base.with_moved(text)


def based(asked: Asked, bench: Bench, hand: AtHand) -> None:
    """Have a moved number start from what has been drafted."""
    _bases(asked, bench)["lately"] = Base((styles_asked(asked), whom_drawn(asked)), hand)


def made_ready(asked: Asked, bench: Bench) -> None:
    """Find what leans on each number of what was drafted lately, so that the first move of one need not wait for it."""
    base = _bases(asked, bench).get("lately")
    if base is not None and base.hand.now.source.text == asked.get("text"):
        assert base.leaning and base.literals is not None


def _bases(asked: Asked, bench: Bench) -> dict[str, Base]:
    def none_yet() -> dict[str, Base]:
        return {}

    return bench.keep(("base", str(file_of(asked, bench)[0])), none_yet)


def desk(asked: Asked, bench: Bench, name: str = "text") -> Desk:
    """The desk with the text that was sent. Raises `Problems` for what is no text, or too long."""
    text = asked.get(name)
    if not isinstance(text, str) or len(text) > LARGEST:
        raise Problems([error("this is no text of a pattern, or one over 1 MB")])
    path, place = file_of(asked, bench)
    found = bench.keep(("desk", name, str(path), place), lambda: Desk(OpenFile(place, path.parent, path=None)))
    if found.file.text != text or found.file.is_new:
        found.file.change(text)
    return found


def at_hand(asked: Asked, bench: Bench, name: str = "text") -> AtHand:
    """The text that was sent, drafted for whom it was asked. Raises `Problems` with its mistakes."""
    return desk(asked, bench, name).at_hand(styles_asked(asked), whom_drawn(asked))


def file_of(asked: Asked, bench: Bench) -> tuple[Path, str]:
    """The file that a text is of, and its name: the one that was opened, or one of the bundle; else none that is saved.

    What lies beside it can be named in the text, so no other folder is ever taken from a browser.
    """
    pattern = asked.get("garment")
    if pattern == "file" and bench.file:
        return bench.file, bench.file.name
    bundled = bundled_files()
    if isinstance(pattern, str) and pattern in bundled:
        return bundled[pattern], bundled[pattern].name
    return folder("pieces") / UNSAVED, UNSAVED


def _planned(now: Analysis, styles: dict[str, str], whom: Whom) -> Planned:
    if now.texts is None or now.plan is None:
        stop_if_errors(now.notes)
        raise Problems([error("there is nothing to draw here: these are templates for other files")])
    plan = plan_texts(now.texts, styles) if styles else now.plan
    return Planned(Request(now.source.name, whom, styles), now.texts, None, plan)
