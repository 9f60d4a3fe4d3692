"""The cloth that pieces are laid on: how wide it is, what washing takes from it, and whether it has a direction."""

from __future__ import annotations

import math

from draft.base.notes import Note, Problems, error
from draft.base.plainly import Sentence, mm, sentence
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH, in_centimetres, sold_centimetres, sold_inches

ENDS = MM_PER_INCH
"""Kept free at each cut end, mm: shops seldom cut square, so cloth is straightened first (common practice)."""
MOST_SHRINKAGE = 0.5
"""No cloth for clothes loses half; a larger figure is a slip (`5` for `5 %`)."""
WIDEST = 10_000.0
"""Cloth wider than 10 m is not woven or knitted: a larger figure is a slip of the unit."""
WIDEST_REPEAT = 1_500.0
"""Prints return at least once in the width of cloth; a larger figure is a slip of the unit."""
_WHOLE = 1e-6


@dataclass(frozen=True)
class Cloth:
    """Cloth as it is bought: `width` in mm between the selvedges, shrinkage as shares of what is bought.

    `one_way` cloth has a nap or a print with an upper end, so every piece points the same way. `ends` mm are kept
    free at each cut end, and `selvedge` mm along both selvedges once the cloth is washed. Its stripes or checks return
    after `repeat_across` and `repeat_along` mm, measured on the washed cloth; 0 where they run on or there are none.
    """

    width: float
    shrink_across: float = 0.0
    shrink_down: float = 0.0
    one_way: bool = False
    ends: float = ENDS
    selvedge: float = 0.0
    repeat_across: float = 0.0
    repeat_along: float = 0.0

    @property
    def repeats(self) -> bool:
        """Whether it has stripes or checks that are to be matched."""
        return self.repeat_across > 0 or self.repeat_along > 0

    @property
    def usable(self) -> float:
        """Its width in mm once it has been washed, without its selvedges: pieces are laid on that."""
        return self.width * (1.0 - self.shrink_across) - 2 * self.selvedge

    def width_for(self, wide: float) -> float:
        """The width that the cloth must have, mm, for a piece so wide: the reverse of `usable`."""
        return (wide + 2 * self.selvedge) / (1.0 - self.shrink_across)

    def bought(self, length: float) -> float:
        """The length to buy, mm, for a lay of this length: both ends and what washing takes added.

        Of cloth that repeats a repeat more: a shop cuts it anywhere between two stripes.
        """
        return (length + 2 * self.ends + self.repeat_along) / (1.0 - self.shrink_down)

    def left(self, bought: float) -> float:
        """The length for the lay, mm, that a bought length leaves: the reverse of `bought`."""
        return bought * (1.0 - self.shrink_down) - 2 * self.ends - self.repeat_along


def checked(cloth: Cloth) -> Cloth:
    """The cloth, if there can be such cloth. Raises Problems with everything that is wrong with it."""
    notes = [*_width_notes(cloth.width)]
    notes += _shrink_notes("across", cloth.shrink_across) + _shrink_notes("down", cloth.shrink_down)
    if not (math.isfinite(cloth.ends) and 0 <= cloth.ends <= WIDEST):
        notes.append(error(f"{in_centimetres(cloth.ends)} cannot be kept free at the ends", None, "try `--ends 2.5cm`"))
    if cloth.selvedge and not 0 <= cloth.selvedge < cloth.width / 4:
        fact = f"{in_centimetres(cloth.selvedge)} cannot be kept free along each selvedge"
        notes.append(error(fact, None, "try `--selvedge 2cm`"))
    notes += [_repeat_note(way, mm) for way, mm in _repeats(cloth) if not 0 <= mm <= WIDEST_REPEAT]
    if notes:
        raise Problems(notes)
    return cloth


def _repeats(cloth: Cloth) -> tuple[tuple[str, float], ...]:
    return ("across", cloth.repeat_across), ("along the length", cloth.repeat_along)


def _repeat_note(way: str, mm: float) -> Note:
    return error(f"stripes or checks do not repeat every {in_centimetres(mm)} {way}", None, "try `--repeat 4cm`")


def _width_notes(width: float) -> list[Note]:
    if not (math.isfinite(width) and width > 0):
        fix = "give its width between the selvedges, as in `--width 58in`"
        return [error("the cloth has no width", None, fix, plainly=_no_such_width())]
    if width > WIDEST:
        words = f"cloth {in_centimetres(width)} wide is wider than any loom"
        return [error(words, None, "check the unit, as in `--width 150cm`", plainly=_no_such_width())]
    return []


def _no_such_width() -> Sentence:
    return sentence("width_outside", low=mm(WIDEST / 100), high=mm(WIDEST))


def _shrink_notes(way: str, share: float) -> list[Note]:
    option = f"`--shrink-{way} 5%`"
    if not math.isfinite(share) or share < 0:
        return [error(f"shrinkage {way} is less than nothing", None, f"give what washing takes, as in {option}")]
    if share > MOST_SHRINKAGE:
        words = f"shrinkage {way} of {share * 100:g} % would leave less than half of the cloth"
        return [error(words, None, f"give it in percent, as in {option}")]
    return []


def width_words(mm: float) -> str:
    """`58 in (148 cm)`, or `147 cm (58 in)` for cloth that is sold by the centimetre: rounded up, as shops say it."""
    inches, centimetres = sold_inches(mm), f"{sold_centimetres(mm):g} cm"
    whole = abs(mm / 10 - round(mm / 10)) < _WHOLE
    return f"{centimetres} ({inches})" if whole else f"{inches} ({centimetres})"
