"""The cloth that is asked for: lengths and shares, with one clear message for what is neither, and a fabric's own."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from draft.base.notes import Problems, error, nearest
from draft.base.plainly import Sentence, Typed, sentence
from draft.base.units import MM_PER_INCH, Kind, QuantityError, in_centimetres, read_quantity
from draft.drafting.drafting import Drafted

_USUAL = 58 * MM_PER_INCH
SMALLEST_REPEAT = 5.0
"""Of finer stripes, mm, nobody sees whether they meet (common practice: up to a quarter of an inch)."""


def read_length(text: str, option: str, example: str) -> float:
    """A length in mm. Raises Problems."""
    return _read(text, Kind.LENGTH, "a length", f"write `{option} {example}`")


def read_repeat(text: str | None, option: str = "--repeat") -> tuple[float, float]:
    """After how many mm stripes or checks return, across and along: `4cm` of stripes across, `3cm x 4cm` of checks.

    Raises Problems for what is no repeat.
    """
    if text is None:
        return 0.0, 0.0
    sides = [read_length(side, option, "3cmx4cm") for side in re.split(r"\s*(?:x|×|by)\s*", text.strip(), flags=re.I)]
    across, along = [0.0, *sides][-2:]
    if len(sides) > 2 or min(sides) < 0 or max(sides) < SMALLEST_REPEAT:
        fix = f"write `{option} 4cm` for stripes from selvedge to selvedge, `{option} 3cmx4cm` for checks"
        raise Problems([error(f"`{text[:40]}` is no repeat of stripes or checks", None, fix)])
    if any(0 < side < SMALLEST_REPEAT for side in sides):
        fact = f"what returns after less than {in_centimetres(SMALLEST_REPEAT)} need not be matched"
        raise Problems([error(fact, None, f"leave `{option}` out, or check the unit")])
    return across, along


def read_share(text: str | None, option: str, otherwise: float) -> float:
    """A share such as `5 %`; a bare number of 1 or more is taken for percent. Raises Problems."""
    if text is None:
        return max(otherwise, 0.0)  # a cloth that grows in the wash needs no more of it
    value = _read(text, Kind.NUMBER, "a share", f"write `{option} 5%`")
    return value / 100 if value >= 1 and "%" not in text else value


def fabric_of(drafted: Drafted) -> Mapping[str, float]:
    """What is known of the fabric that a garment was drafted for; nothing where none was named."""
    fabric = drafted.planned.fabric if drafted.planned else None
    return fabric.values if fabric else {}


def usual_width(cloth: Mapping[str, float]) -> float:
    """The width of a cloth in mm as far as it is known, or else one in which most cloth for clothes is sold."""
    return cloth.get("width", _USUAL)


def widths_asked(texts: Sequence[str], names: Sequence[str], option: str) -> dict[str, list[float]]:
    """The widths in mm for each of these cloths, from texts such as `140cm` or, of one by its name, `lining=140cm`.

    One without a name is that of the first cloth. Raises Problems for what is no width, and for a cloth not known.
    """
    found: dict[str, list[float]] = {}
    for text in texts:
        name, equals, width = text.rpartition("=")
        name = name.strip() if equals else names[0]
        if name not in names or not (name or not equals):
            named = [known for known in names if known]
            hint = nearest(name, named) or (f"choose from {', '.join(named)}" if named else f"write `{option} 58in`",)
            raise Problems([error(f"this pattern has no cloth called `{name[:60]}`", None, *hint)])
        found.setdefault(name, []).append(read_length(width, option, "58in"))
    return found


def washing(drafted: Drafted) -> Mapping[str, float]:
    """What is known of the washing that is still to come: nothing of pieces that hold it already."""
    return {} if drafted.unwashed else fabric_of(drafted)


def still_to_shrink(drafted: Drafted, across: str | None, down: str | None, washed: bool) -> tuple[float, float]:
    """The shares that washing will take from the cloth, by what is said, else by the fabric; of `washed` cloth none."""
    if washed:
        return 0.0, 0.0
    known = washing(drafted)
    return (
        read_share(across, "--shrink-across", known.get("shrinkage_across", 0.0)),
        read_share(down, "--shrink-down", known.get("shrinkage_down", 0.0)),
    )


def _read(text: str, kind: Kind, what: str, hint: str) -> float:
    try:
        found = read_quantity(text)
    except (QuantityError, ValueError, OverflowError) as reason:
        raise Problems([error(str(reason), None, hint, plainly=_unread(text))]) from None
    if found.kind is not kind and not (kind is Kind.LENGTH and found.value == 0):
        raise Problems([error(f"`{text}` is not {what}", None, hint, plainly=_unread(text))])
    return found.value


def _unread(text: str) -> Sentence:
    return sentence("length_unread", words=Typed(text[:40]))
