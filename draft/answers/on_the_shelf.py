"""The shelf: the bundled patterns, what each is, in which sizes, for whom and of which cloth."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from draft.base.naming import and_list, plain
from draft.base.record import dataclass
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request
from draft.paper.booklet.facts import BookletFacts
from draft.paper.booklet.material_section import stretch_asked
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import ENGLISH
from draft.paper.flat.shelf_drawing import Shown, shelf_drawing, shelf_pdf
from draft.plan.library import bundled_patterns

_WIDE = 100


@dataclass(frozen=True)
class OnShelf:
    """One pattern: its name for the command, its title, and a sentence on each of the rest; empty where it has none."""

    name: str
    title: str
    garment: str
    sizes: str
    cloth: str
    skill: str
    drafted: Drafted


def on_the_shelf() -> list[OnShelf]:
    """The bundled patterns in the order of their names. Raises `Problems` where one has a mistake."""
    return [_on_shelf(name, draft_and_check(Request(name))) for name in bundled_patterns()]


def _on_shelf(name: str, drafted: Drafted) -> OnShelf:
    garment, about = drafted.garment, drafted.plan.booklet.about
    facts = BookletFacts(drafted, tuple(range(len(garment.sizes))), ENGLISH)
    words = {topic: " ".join(about(topic)) for topic in ("garment", "skill")}
    sizes = " to ".join(dict.fromkeys((garment.sizes[0], garment.sizes[-1])))
    sizes = ", also ".join(filter(None, (sizes, and_list([plain(name) for name, _ in drafted.plan.charts[1:]]))))
    return OnShelf(name, garment.title, words["garment"], sizes, _cloth(facts), words["skill"], drafted)


def _cloth(facts: BookletFacts) -> str:
    """`woven`, or `knit, stretching 40 % across and 20 % down`."""
    if not facts.knit:
        return "woven"
    across, down = (f"{share:.0%}".replace("%", " %") if share > 0 else "" for share in stretch_asked(facts))
    ways = " and ".join([*([f"{across} across"] if across else []), *([f"{down} down"] if down else [])])
    return f"knit, stretching {ways}" if ways else "knit"


def shelf_report(shelf: Sequence[OnShelf]) -> str:
    """A paragraph for each pattern: its name, title, sizes and cloth in a line, and what its designer says of it."""
    wide = max((len(one.name) for one in shelf), default=0) + 2
    return "\n".join(line for one in shelf for line in _told(one, wide))


def _told(one: OnShelf, wide: int) -> list[str]:
    head = f"{one.name:{wide}}{one.title}; sizes {one.sizes}; {one.cloth}"
    lines = [line for text in (one.garment, one.skill) for line in textwrap.wrap(text, _WIDE - wide)]
    return [head, *(" " * wide + line for line in lines)]


def shelf_files(shelf: Sequence[OnShelf]) -> dict[str, bytes]:
    """`shelf.svg` and `shelf.pdf`: each garment drawn flat, in the middle of its sizes, with the same words."""
    drawing = shelf_drawing([_shown(one) for one in shelf])
    return {"shelf.svg": svg(drawing).encode(), "shelf.pdf": shelf_pdf(drawing)}


def _shown(one: OnShelf) -> Shown:
    head = f"{one.name}: sizes {one.sizes}; {one.cloth}"
    return Shown(one.title, tuple(filter(None, (head, one.garment, one.skill))), one.drafted.garment)
