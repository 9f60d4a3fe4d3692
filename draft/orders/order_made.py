"""One order made: drafted, checked and packed as files, or refused with the reasons in a customer's words."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from draft.answers.in_her_words import without_places
from draft.base.notes import Note, Problems, Severity
from draft.base.output_names import safe_name
from draft.base.record import dataclass
from draft.base.told_once import told_once
from draft.base.visible import visible
from draft.bodies.given_measures import NAME
from draft.drafting.checked import draft_planned
from draft.drafting.drafting import Drafted
from draft.drafting.planned import Planned, plan_for
from draft.drafting.request import Request
from draft.orders.became import ClothLength, Made, MadeFile, Refused
from draft.orders.one_order import Order, paper_of_order, request_of_order
from draft.orders.unnamed import HERS, figures_of, without_figures
from draft.pack.pack import PackFacts, pack_files
from draft.paper.booklet import ClothPlan

OTHERWISE = "order"
"""What goes before a key that only a device may be called."""

_LOOK = "look at this order's measures, and ask the customer"
"""In the place of a hint that is nothing but another figure of hers."""


@dataclass(frozen=True)
class Packed:
    """What became of an order, and the files of its pack by their places in it."""

    made: Made
    files: dict[str, bytes]


class Plans:
    """Plans by what they are of. Only who drafts from files that nobody changes may keep them."""

    _MOST = 64

    def __init__(self) -> None:
        self._plans: dict[object, Planned] = {}

    def of(self, request: Request) -> Planned:
        """The plan, made once for all who have chosen alike. Raises `Problems` as `plan_for` does."""
        key = (request.pattern, tuple(sorted(request.styles.items())), request.fabric, request.whom.chart)
        found = self._plans.get(key)
        if found is None:
            found = plan_for(request)
            if len(self._plans) >= self._MOST:
                self._plans.pop(next(iter(self._plans)))
            self._plans[key] = found
        whom = replace(request.whom, chart=found.request.whom.chart)
        return replace(found, request=replace(request, whom=whom))


def pack_order(order: Order, plans: Plans | None = None, called: str | None = None) -> Packed | Refused:
    """Make the files of an order, and write none; `called` is its pattern as a user knows it.

    `plans` are kept from one order to the next where nobody changes the files that they are made from.
    """
    warned: list[Note] = []
    facts = PackFacts()
    drafted: Drafted | None = None
    asked: Request | None = None
    try:
        asked = request_of_order(order)
        planned = (plans or Plans()).of(asked)
        paper = paper_of_order(order, planned.studio)
        drafted = draft_planned(planned, whole=True)
        files = pack_files(drafted, paper, warn=warned.append, facts=facts)
    except Problems as problems:
        return refused_for(order, drafted, problems.notes, asked, called)
    cautions = [note for note in (*drafted.notes, *warned) if note.severity is Severity.CAUTION]
    made = Made(
        key=order.key,
        folder=safe_name(order.key, OTHERWISE),
        files=tuple(
            MadeFile(name, len(data), hashlib.sha256(data).hexdigest()) for name, data in sorted(files.items())
        ),
        pages=dict(facts.pages),
        cloth=_lengths(facts.cloth),
        estimates=tuple(dict.fromkeys(one.name for one in drafted.told_estimates)),
        cautions=tuple(_said(note.message, order, drafted) for note in _told(asked, cautions, called)),
    )
    return Packed(made, files)


def refused_for(
    order: Order,
    drafted: Drafted | None,
    notes: Sequence[Note],
    asked: Request | None = None,
    called: str | None = None,
) -> Refused:
    """Why an order cannot be made, of the errors among notes, in words without a figure of hers."""
    errors = [note for note in notes if note.severity is Severity.ERROR]
    told = _told(asked or Request(order.pattern), errors, called)
    reasons = dict.fromkeys(_said(note.message, order, drafted) for note in told)
    said = [_said(hint, order, drafted) for note in told for hint in note.hints]
    fixes = dict.fromkeys([hint for hint in said if HERS not in hint] or ([_LOOK] if said else []))
    return Refused(order.key, tuple(reasons), tuple(fixes))


def _told(asked: Request | None, notes: Sequence[Note], called: str | None) -> list[Note]:
    """Without their places in the file of a bundled pattern, which no customer has seen."""
    known = asked and (replace(asked, pattern=called) if called else asked)
    return told_once(without_places(known, notes) if known else notes)


def _said(text: str, order: Order, drafted: Drafted | None) -> str:
    """Words without any figure of her body."""
    values = [float(value) for one in drafted.bodies.values.values() for value in one] if drafted else []
    figures = figures_of(order.measures, values if drafted and not order.sizes else ())
    plain = without_figures(text, figures)
    return visible(plain.replace(f" for {NAME}", "").replace(f" for {order.key}", ""))


def _lengths(plan: ClothPlan | None) -> tuple[ClothLength, ...]:
    """The shortest length of each cloth and width: of sizes together, what the largest takes."""
    found: dict[tuple[str, float], float] = {}
    for amounts in plan.amounts if plan else ():
        length = max((one for one in amounts.lengths if one == one), default=None)
        if length is not None:
            key = (amounts.name, amounts.width)
            found[key] = min(length, found.get(key, length))
    return tuple(ClothLength(name, width, length) for (name, width), length in found.items())


def make_order(order: Order, into: Path) -> Made | Refused:
    """Make one order: its pack lies in a folder of its own in `into`, whole, or nothing was written.

    The folder is called by the order's key, made safe for every file system; a pack of the same order that lies there
    is made anew. What the order asks for and cannot be had is a `Refused`. Raises `Problems` where the folder cannot
    be written (a full disk, a file of somebody else's in the way), and OSError where the system refuses more.
    """
    from draft.base.output import write_folder

    packed = pack_order(order)
    if isinstance(packed, Refused):
        return packed
    write_folder(into / packed.made.folder, packed.files)
    return packed.made
