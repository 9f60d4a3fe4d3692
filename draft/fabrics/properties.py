"""The properties of a cloth that a pattern can name, how each is found, which figures can be true."""

from __future__ import annotations

from draft.base.notes import Note, Span, error, nearest
from draft.base.plainly import Figure, OfCloth, Parts, sentence
from draft.base.record import dataclass
from draft.base.units import Kind, in_centimetres


@dataclass(frozen=True)
class ClothProperty:
    """One property of a cloth; values from `low` to `high` (a number or mm) are plausible."""

    name: str
    kind: Kind
    how: str
    """How to find it, as one instruction."""
    low: float
    high: float
    usual: float
    """Where nothing better is known."""
    example: str
    drafts: bool = True
    """Whether a pattern may lean on it; the others only matter to what is bought and cut."""

    def in_words(self, value: float) -> str:
        """A value as it is written."""
        return in_centimetres(value) if self.kind is Kind.LENGTH else percent(value)


_ALL = (
    ClothProperty("stretch_across", Kind.NUMBER, "fold the cloth across its width, mark 10 cm and pull until it "
                  "resists: how much longer it grew, as a share of 10 cm", 0.0, 2.5, 0.0, "50 %"),
    ClothProperty("stretch_down", Kind.NUMBER, "the same along its length", 0.0, 2.5, 0.0, "25 %"),
    ClothProperty("recovery", Kind.NUMBER, "pull 10 cm as far as it goes, let go: how much of what it grew it loses "
                  "again", 0.3, 1.0, 1.0, "90 %"),
    ClothProperty("width", Kind.LENGTH, "between the selvedges", 200.0, 4000.0, 1500.0, "150 cm", drafts=False),
    ClothProperty("shrinkage_across", Kind.NUMBER, "mark 50 cm across, wash and dry: by how much it is shorter",
                  -0.05, 0.25, 0.0, "5 %", drafts=False),
    ClothProperty("shrinkage_down", Kind.NUMBER, "mark 50 cm along the length, wash and dry: by how much it is shorter",
                  -0.05, 0.25, 0.0, "5 %", drafts=False),
)  # fmt: skip

PROPERTIES: dict[str, ClothProperty] = {found.name: found for found in _ALL}
"""All properties by name. The limits refuse slips of the pen: a rib may stretch to twice its length and more, and a few
cloths grow a little in the wash."""


TO_MEASURE = f"how a cloth's stretch is measured: {PROPERTIES['stretch_across'].how} (`plainseam words stretch_across`)"
"""One line beside whatever asks for a stretch, and where it is read again."""


def percent(share: float) -> str:
    """`50 %`, `2.5 %`."""
    text = f"{share * 100:.1f}".rstrip("0").rstrip(".")
    return f"{'0' if text == '-0' else text} %"


def unknown_property(name: str, span: Span | None = None) -> Note:
    """The note for a word that should be a property of cloth and is none."""
    hints = nearest(name[:80], PROPERTIES) or ("choose from " + ", ".join(PROPERTIES),)
    return error(f"`{name[:40]}` is not a property of cloth", span, *hints)


def outside_cloth_limits(found: ClothProperty, value: float, span: Span | None = None) -> Note | None:
    """A note when no cloth has such a figure."""
    if found.low <= value <= found.high:
        return None
    low, high = found.in_words(found.low), found.in_words(found.high)
    hints = [f"find it again: {found.how}"]
    if found.kind is Kind.NUMBER and found.low <= value / 100 <= found.high:
        hints = [f"did you mean {percent(value / 100)}?"]
    ends: Parts = {"low": Figure(found.low, found.kind), "high": Figure(found.high, found.kind)}
    plainly = sentence("cloth_outside", property=OfCloth(found.name), **ends)
    fact = f"`{found.name}` is {found.in_words(value)}, outside {low} to {high}"
    return error(fact, span, *hints, plainly=plainly)
