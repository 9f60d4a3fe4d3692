"""Within a case a request is drafted once, as a page or a batch keeps a draft at hand; each verb makes its own of it.

A case asks a dozen verbs about one pattern in the same sizes. What is kept is forgotten with the case, and with a verb
that writes the pattern. Pages are also laid out in fewer rounds of the same search. `ANEW` of all cases keep nothing,
so that each verb is also run as a terminal runs it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from draft.base.notes import Problems
from draft.drafting import checked
from draft.drafting.drafting import Drafted
from draft.drafting.planned import Planned, plan_for
from draft.drafting.request import Request
from draft.paper.pages.packing import pack_on_pages

ANEW = 0.1
"""The share of cases in which every verb drafts anew."""
ROUNDS = 30
"""Of taking pieces up from their pages and putting them down again; usually 200."""
_Made = TypeVar("_Made")


class Kept:
    """Stands between the function that the command calls and the three that it calls."""

    def __init__(self) -> None:
        self._found: dict[object, Any] = {}
        self._held: list[object] = []  # what is known by its address stays where it is
        self._is_on = False
        self._rules, self._rounds = pack_on_pages.__defaults__ or ()
        draft, check = checked.draft_unchecked, checked.checked

        def planned(request: Request, texts: Any = None) -> Planned:
            if texts is not None:
                return plan_for(request, texts)
            return self._once(("plan", request), lambda: plan_for(request))

        def drafted(planned: Planned) -> Drafted:
            return self._once(("draft", id(planned)), lambda: draft(planned), planned)

        def looked_over(drafted: Drafted, whole: bool = False) -> Drafted:
            return self._once(("check", id(drafted), whole), lambda: check(drafted, whole), drafted)

        for name, stands_in in (("plan_for", planned), ("draft_unchecked", drafted), ("checked", looked_over)):
            setattr(checked, name, stands_in)

    def forget(self, is_on: bool) -> None:
        """Begin anew, and keep from here on or not."""
        self._found.clear()
        self._held.clear()
        self._is_on = is_on
        pack_on_pages.__defaults__ = (self._rules, ROUNDS if is_on else self._rounds)

    def _once(self, key: object, make: Callable[[], _Made], *held: object) -> _Made:
        """What was made for a key, or the same refusal again."""
        if not self._is_on:
            return make()
        if key not in self._found:
            self._held += held
            try:
                self._found[key] = make()
            except Problems as refused:
                self._found[key] = refused
        found = self._found[key]
        if isinstance(found, Problems):
            raise Problems(found.notes)
        return found  # type: ignore[no-any-return]
