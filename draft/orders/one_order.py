"""One order as plain data: what a shop knows of it, and the engine's two requests that it comes to.

    Order("A-1017", "marlpit", measures={"bust_girth": "98 cm", "waist_girth": "83 cm"}, pages=("a4",), language="de")

Quantities are texts with their units, as they are typed everywhere else. `key` is the shop's own number of the order:
it names the folder and is printed on the pieces, so it should tell nothing of a customer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from draft.base.record import dataclass
from draft.drafting.request import Request, Whom
from draft.pack.paper_request import PaperRequest

if TYPE_CHECKING:
    from draft.paper.drawing.spoken_languages import Units
    from draft.paper.pages.page_grid import Assembly
    from draft.studio.studio import Held, Studio


@dataclass(frozen=True)
class Order:
    """One customer's garment, and how she wants it printed.

    It is for one person by her `measures`, between sizes (`like`), or both, with her `figure` in words; or for `sizes`
    of the chart. `pattern` and `cloth` are names of bundled ones or paths: never what a stranger has typed. Of paper,
    language and the like None is what the studio of the pattern says, or what is usual.
    """

    key: str
    pattern: str
    measures: Mapping[str, str] = field(default_factory=dict, hash=False)
    """By the names of ISO 8559-1, or `bust`, `waist`, `hip`, `height`: `{"bust_girth": "98 cm"}`."""
    sizes: tuple[str, ...] = ()
    like: str | None = None
    """Between sizes of the chart: `bust M, hip XL`."""
    figure: str | None = None
    """What is seen of her figure: `sloping shoulders, bust D`."""
    chart: str | None = None
    """Another chart of the pattern, by its name."""
    styles: Mapping[str, str] = field(default_factory=dict, hash=False)
    """What is chosen, by its name: `{"sleeve": "long"}`."""
    cloth: str | None = None
    """What the garment is made of: `moderate`, or a file about a fabric."""
    unwashed: bool = False
    """Whether pieces are to be larger by what washing takes from the cloth."""
    allowance: str | None = None
    """Of all seams but hems: `1 cm`, or `none`; nothing said, the designer's."""
    pages: tuple[str, ...] | None = None
    """Papers of her printer, `letter` and `a4`; empty where she has a print shop's."""
    large: tuple[str, ...] | None = None
    """Papers of a print shop, and `projector`."""
    assemble: Assembly | None = None
    """Whether pages overlap or butt."""
    language: str | None = None
    units: Units | None = None
    """Nothing said, those that are usual in the language."""
    widths: tuple[str, ...] | None = None
    """Widths of cloth that the booklet gives lengths for: `140 cm`; nothing said, the cloth's own or a usual one."""
    one_way: bool = False
    """Whether the cloth has a nap or a print with an upper end."""
    selvedge: str | None = None
    """What is kept free along each selvedge."""
    repeat: str | None = None
    """How far apart stripes or checks are: `4 cm`, `3 cm x 4 cm`."""
    large_print: bool | None = None
    """Whether the booklet is there in large letters too."""
    holds: tuple[Held, ...] | None = None
    """What the pack holds: `pages`, `booklet`, `html`, `flat`, `svg`, `tables`; nothing said, all."""


WIDEST_SEAM = 50.0
"""mm: seams are cut 1 to 4 cm wide, the widest to be let out (common practice)."""


def request_of_order(order: Order) -> Request:
    """What is to be drafted. Raises `Problems` where it is not said for whom, or said in two ways."""
    from draft.base.notes import Problems, error

    whom = Whom(
        chart=Path(order.chart) if order.chart else None,
        sizes=order.sizes or None,
        like=order.like,
        answers=tuple(f"{name}={value}" for name, value in order.measures.items()),
        figure=order.figure,
        name=order.key,
    )
    if not whom.is_person and whom.sizes is None:
        fix = "give measures, such as a bust, a waist and a hip, or a size"
        raise Problems([error("this order does not say for whom", None, fix)])
    if whom.is_person and whom.sizes is not None:
        fix = "take the size out, or the measures"
        raise Problems([error("this order names a size and a person's measures", None, fix)])
    if whom.figure and not whom.is_person:
        raise Problems([error("a figure is said of a person, and this order is for a size", None, "take it out")])
    return Request(order.pattern, whom, dict(order.styles), order.cloth, order.unwashed, _allowance(order.allowance))


def _allowance(text: str | None) -> float | None:
    from draft.base.notes import Problems, error
    from draft.laying.asked import read_length

    if text is None:
        return None
    own = 0.0 if text.strip().lower() == "none" else read_length(text, "allowance", "1cm")
    if not 0 <= own <= WIDEST_SEAM:
        raise Problems([error(f"an allowance of {text} is wider than a seam is ever cut", None, "5 cm at most")])
    return own


def paper_of_order(order: Order, studio: Studio | None) -> PaperRequest:
    """How it is printed: as the order says, or else the studio.

    Raises `Problems` for a language that there are no words in, and for what is no length.
    """
    from draft.laying.asked import read_length, read_repeat
    from draft.pack.studio_paper import studio_paper

    said: dict[str, Any] = {
        "pages": order.pages,
        "large": order.large,
        "assembly": order.assemble,
        "units": order.units,
        "cloth": order.widths,
        "large_print": order.large_print,
        "holds": order.holds,
    }
    return replace(
        studio_paper(studio, order.language),
        one_way=order.one_way,
        selvedge=read_length(order.selvedge, "selvedge", "2cm") if order.selvedge else 0.0,
        repeat=read_repeat(order.repeat, "repeat"),
        **{name: value for name, value in said.items() if value is not None},
    )
