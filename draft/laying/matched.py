"""What matching stripes and checks costs in cloth, and what it cannot do: words for `lay`, figures for the booklet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from draft.base.naming import and_list
from draft.base.notes import Note, caution, remark
from draft.base.units import in_centimetres
from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.lay import Folding
from draft.cloth.needs import ClothNeed, cloth_needs
from draft.garment.garment import Garment
from draft.laying.lay_sizes import sizes_of
from draft.seams.matching import matched_joins, off_lines

SEEN = 1.0
"""Lines that miss one another by more than so many mm are seen (common practice)."""
_LESS = 0.5


def matching_costs(
    garment: Garment, row: Sequence[ClothNeed], effort: Effort, foldings: Sequence[Folding]
) -> tuple[float, ...]:
    """By how many mm a size more is bought than of the same cloth without stripes, laid one way."""
    plain = replace(row[0].cloth, repeat_across=0.0, repeat_along=0.0)
    names = [need.size for need in row]
    sizes = [size for size in sizes_of(garment) if size.name in names]
    (other,) = cloth_needs(sizes, [plain], effort, foldings=foldings)
    return tuple(need.bought - plain_need.bought for need, plain_need in zip(row, other, strict=True))


def matching_report(
    garment: Garment, rows: Sequence[Sequence[ClothNeed]], effort: Effort, foldings: Sequence[Folding]
) -> list[str]:
    """A line on what matching takes, for one cloth that repeats; none else."""
    if len(rows) > 1 or not rows[0][0].cloth.repeats or not matched_joins(garment):
        return []
    costs = matching_costs(garment, rows[0], effort, foldings)
    sizes = [f"{need.size} {in_centimetres(cost)}" for need, cost in zip(rows[0], costs, strict=True) if cost > _LESS]
    if not sizes:
        return ["matching the repeat takes no more cloth than cloth of one way without it"]
    return [f"matching the repeat takes more than plain cloth laid one way: {', '.join(sizes)}"]


def matching_notes(garment: Garment, cloths: Sequence[Cloth]) -> tuple[Note, ...]:
    """What there is to say of matched seams: that there are none, or that some cannot meet."""
    repeating = [cloth for cloth in cloths if cloth.repeats]
    if not repeating:
        return ()
    if not matched_joins(garment):
        words = "this pattern names no seam at which stripes meet, so nothing is matched"
        return (remark(words, None, "a designer names them in `join`, as in `matched notch at 75 %`"),)
    off = _off(garment, repeating[0])
    return (_missed(off),) if off else ()


def _off(garment: Garment, cloth: Cloth) -> dict[str, tuple[float, str]]:
    """By how much seams miss at worst, and in which size, where that is seen: a whole repeat is none."""
    found: dict[str, tuple[float, str]] = {}
    names = {size.name for size in sizes_of(garment)}
    for body, size in enumerate(garment.sizes):
        for name, mm in (off_lines(garment, body) if size in names and cloth.repeat_along else {}).items():
            missed = abs(mm - round(mm / cloth.repeat_along) * cloth.repeat_along)
            if missed > max(SEEN, found.get(name, (0.0, ""))[0]):
                found[name] = missed, size
    return found


def _missed(off: Mapping[str, tuple[float, str]]) -> Note:
    listed = and_list([f"`{name}` ({in_centimetres(mm)} in {size})" for name, (mm, size) in off.items()])
    fact = f"where the other seams meet, the stripes miss one another at {listed}"
    return caution(fact, None, "let them meet where it is seen most, and take `matched` from the other notch")
