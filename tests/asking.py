"""Requests as tests write them: the fields of `Request` and of its `Whom` side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from draft.answers.on_the_shelf import OnShelf, on_the_shelf
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom


def asked(
    pattern: object,
    *,
    sizes: Sequence[str] | None = None,
    answers: Sequence[str] = (),
    styles: Mapping[str, str] | None = None,
    fabric: object = None,
    unwashed: bool = False,
) -> Request:
    """A bundled pattern by name or the file at a path, for sizes of its chart or for one person."""
    whom = Whom(sizes=None if sizes is None else tuple(sizes), answers=tuple(answers))
    return Request(str(pattern), whom, styles or {}, str(fabric) if fabric else None, unwashed)


@cache
def bundled(name: str, *sizes: str, **styles: str) -> Drafted:
    """A bundled pattern for some sizes of its chart, or for all: drafted once for all tests that look at it."""
    return draft_and_check(asked(name, sizes=sizes or None, styles=styles))


@cache
def shelf() -> list[OnShelf]:
    """All bundled patterns as the shelf has them, drafted once for all tests that look at it."""
    return on_the_shelf()
