"""On what paper a pattern is wanted, as plain data: from a command line, a page's form or a line of a batch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from draft.base.record import dataclass
from draft.studio.studio import HELD, Held

if TYPE_CHECKING:
    from draft.paper.drawing.spoken_languages import Units
    from draft.paper.pages.page_grid import Assembly


@dataclass(frozen=True)
class PaperRequest:
    """The papers of a printer and the large ones, how pages are put together, in which units and language.

    `cloth` are the widths of cloth that the booklet gives lengths for, such as `58in`: None for the fabric's own or a
    usual one, none at all to save the time.
    """

    pages: tuple[str, ...] = ("letter", "a4")
    large: tuple[str, ...] = ()
    assembly: Assembly = "overlap"
    units: Units = "both"
    language: str = "en"
    cloth: tuple[str, ...] | None = None
    one_way: bool = False
    """Whether the first cloth has a nap or a print with an upper end."""
    selvedge: float = 0.0
    """What is kept free along each selvedge, mm."""
    repeat: tuple[float, float] = (0.0, 0.0)
    """After how many mm the stripes or checks of the first cloth return, across and along."""
    large_print: bool = False
    """Whether the booklet is there in letters twice as large too."""
    sit: bool = False
    """Whether the booklet shows the garment on a form of its wearer, which takes half a minute."""
    holds: tuple[Held, ...] = HELD
    """What is made: `pages`, `booklet`, `html`, `flat`, `svg`, `tables` and `epub`, which is none of the
    usual; large papers are there when asked for."""


def names_in(text: str) -> tuple[str, ...]:
    """The names in a text such as `letter, A4`, each once and in small letters; `none` stands for no name."""
    names = (name.strip().lower() for name in text.split(","))
    return tuple(name for name in dict.fromkeys(names) if name and name != "none")
