"""Which style makes a piece narrow enough for a cloth: its options are tried, then the ends of its amounts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from draft.base.notes import Problems
from draft.cloth.of_one import of_each_cloth
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.laying.lay_sizes import sizes_of
from draft.paper.booklet import TooWide

_TRIED = 12
"""Settings that are drafted, each about as long as the pattern itself."""


def narrower_styles(drafted: Drafted, found: TooWide) -> tuple[str, ...]:
    """Settings such as `sleeve=12 cm`, each enough on its own for all sizes that did not fit."""
    fitting: list[str] = []
    for number, setting in enumerate(_settings(drafted)):
        if number == _TRIED or fitting:
            break
        fitting += [setting] if _fits(drafted, setting, found) else []
    return tuple(fitting)


def _settings(drafted: Drafted) -> Iterator[str]:
    """Other options of each choice, the nearest to what is chosen first; then each amount at its ends."""
    styles = drafted.planned.plan.styles if drafted.planned else ()
    for style in sorted(styles, key=lambda style: not style.is_choice):
        chosen = style.ends.index(style.set_to) if style.set_to in style.ends else 0
        near = sorted(style.ends, key=lambda end: abs(style.ends.index(end) - chosen))
        yield from (f"{style.name}={end}" for end in near if end != style.set_to)


def _fits(drafted: Drafted, setting: str, found: TooWide) -> bool:
    assert drafted.planned
    name, _, value = setting.partition("=")
    request = drafted.planned.request
    try:
        again = draft_and_check(replace(request, styles={**request.styles, name: value}))
        sizes = sizes_of(of_each_cloth(again.to_cut)[found.name])
    except (Problems, KeyError):
        return False
    wide = [cut_piece.width for size in sizes for cut_piece in size.cut_pieces]
    return len(sizes) == len(drafted.to_cut.sizes) and max(wide) <= found.usable
