"""What a booklet says of the cloth: how much to buy of each width, and the cutting layouts on it.

Most makers fold their cloth, so where a piece lies on a fold there is a layout on folded cloth for every size that it
holds; the thriftiest of another kind stands beside it where a shop then sells less. A size that is too wide for the
cloth is said to be so, with what would hold it, and is laid on the next wider cloth that is usual.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, rounded_up
from draft.cloth.bolt import Cloth, checked
from draft.cloth.cut_pieces import CutPiece, stop_if_too_many
from draft.cloth.effort import Effort, effort
from draft.cloth.lay import Folding
from draft.cloth.lays import FOLDINGS, lay_as
from draft.cloth.needs import ClothNeed, Size, cloth_needs
from draft.cloth.of_one import of_each_cloth
from draft.cloth.table import common_cloths
from draft.garment.garment import Garment
from draft.laying.groups import groups
from draft.laying.lay_sizes import sizes_of
from draft.laying.matched import matching_costs
from draft.laying.picture import group_picture
from draft.laying.strips_across import in_parts
from draft.paper.booklet import ClothAmounts, ClothPlan, Matching, TooWide
from draft.paper.booklet.order import is_interfacing
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.lay_drawing import LayPicture
from draft.seams.matching import matched_joins

_WIDER = tuple(inches * MM_PER_INCH for inches in (45, 58, 60, 72, 90, 108, 118))
"""Widths in which cloth is sold: shirtings, suitings, jersey off the tube, sheeting, backing (common practice)."""
_FEW_SPARE = 0.1
"""Folded cloth that gives more than this share of the pieces to spare is wasted."""
_HAIR = 0.005
_MUCH = 200.0
"""So many mm of interfacing at least are saved where its strips are cut in parts."""

Row = tuple[ClothNeed, ...]


@dataclass(frozen=True)
class Bolts:
    """The first cloth as a maker has it: whether it has a direction, what is kept free at its selvedges, mm.

    `washing` holds the shrinkage that is still to come.
    """

    washing: Mapping[str, float]
    one_way: bool = False
    selvedge: float = 0.0
    repeat: tuple[float, float] = (0.0, 0.0)
    """After how many mm its stripes or checks return, across and along."""

    def cloth(self, width: float) -> Cloth:
        """Cloth of this width in mm. Raises Problems where there is no such cloth."""
        across, down = (max(self.washing.get(f"shrinkage_{way}", 0.0), 0.0) for way in ("across", "down"))
        (cloth,) = common_cloths([width], across, down, self.one_way, selvedge=self.selvedge, repeat=self.repeat)
        return checked(cloth)


def cloth_plan(garment: Garment, widths: Mapping[str, Sequence[float]], bolts: Bolts, wording: Wording) -> ClothPlan:
    """A quick search for every size on each cloth of the garment, of each of its widths in mm.

    What is said of the `bolts` is said of the first cloth. Raises Problems for cloth that cannot be.
    """
    whole = ClothPlan()
    for number, (name, part) in enumerate(of_each_cloth(garment).items()):
        mine = Bolts({}, selvedge=bolts.selvedge) if number else bolts
        for cloth in map(mine.cloth, dict.fromkeys(widths[name])):
            whole += _of_one(name, part, cloth, wording)
    return whole


def _of_one(name: str, garment: Garment, cloth: Cloth, wording: Wording) -> ClothPlan:
    """The plan of one cloth, and for sizes that are too wide for it that of wider cloth."""
    sizes = sizes_of(garment)
    for size in sizes:
        stop_if_too_many(size.cut_pieces)
    wide = [size for size in sizes if _widest(size).width > cloth.usable + _HAIR]
    plan = _laid(name, garment, [size for size in sizes if size not in wide], cloth, wording)
    if not wide:
        return plan
    widest = max(map(_widest, wide), key=lambda cut_piece: cut_piece.width)
    least = cloth.width_for(widest.width)
    names = tuple(size.name for size in wide)
    told = TooWide(cloth.width, names, widest.name, widest.width, least, name, cloth.usable)
    wider = next((width for width in _WIDER if width >= least), None)
    more = _laid(name, garment, sizes, replace(cloth, width=wider), wording) if wider else ClothPlan()
    return plan + ClothPlan(too_wide=(told,)) + more


def _widest(size: Size) -> CutPiece:
    return max(size.cut_pieces, key=lambda cut_piece: cut_piece.width)


def _laid(name: str, garment: Garment, sizes: Sequence[Size], cloth: Cloth, wording: Wording) -> ClothPlan:
    """Amounts and layouts of the sizes that the cloth holds."""
    if not sizes:
        return ClothPlan()
    spent, known = effort("quick"), [size.name for size in sizes_of(garment)]
    folded = _folded(sizes, cloth, spent) if any(piece.on_fold and piece.cut for piece in garment.pieces) else ()
    pairs = any(cut_piece.count > 1 for size in sizes for cut_piece in size.cut_pieces)
    (thrifty,) = cloth_needs(sizes, [cloth], spent, foldings=FOLDINGS if pairs else ("open",))
    shorter = _thriftier(thrifty, folded)
    pieced = _pieced(name, sizes, cloth, thrifty, spent)
    plan = ClothPlan()
    least = _with(shorter, folded)  # as they are drawn: what a shop sells alike has no layout of its own
    kinds = ((folded, "folded"), (least if shorter else (), "thrifty" if folded else ""), (pieced, "pieced"))
    for row, folding in kinds:
        if row:
            lengths = {need.size: need.bought for need in row}
            found = tuple(lengths.get(size, float("nan")) for size in known)
            amounts = ClothAmounts(cloth.width, cloth.one_way, found, name, folding)
            plan += ClothPlan((replace(amounts, matched=_matched(garment, row, spent)),))
    drawn = (pieced,) if pieced else (folded, shorter)
    return plan + ClothPlan(lays=tuple(picture for row in drawn for picture in _drawn(garment, row, wording)))


def _pieced(name: str, sizes: Sequence[Size], cloth: Cloth, whole: Row, spent: Effort) -> Row:
    """What interfacing takes whose long strips are cut across it in parts, where that is much less."""
    parted = in_parts(sizes, cloth) if is_interfacing(name) else []
    if not parted:
        return ()
    (found,) = cloth_needs(parted, [cloth], spent, foldings=("open",))
    return found if max(need.bought for need in found) + _MUCH < max(need.bought for need in whole) else ()


def _matched(garment: Garment, row: Row, spent: Effort) -> Matching | None:
    """What matching its stripes or checks takes, of cloth that has any and a pattern that names such seams."""
    cloth = row[0].cloth
    if not cloth.repeats or not matched_joins(garment):
        return None
    costs = matching_costs(garment, row, spent, [row[0].lay.folding])
    return Matching((cloth.repeat_across, cloth.repeat_along), max(costs))


def _folded(sizes: Sequence[Size], cloth: Cloth, spent: Effort) -> Row:
    """What the sizes need of cloth folded once, those that it holds without much to spare."""
    once: tuple[Folding, ...] = ("one fold",)
    held = []
    for size in sizes:
        lay = lay_as("one fold", size.cut_pieces, cloth, spent, size.shelf)
        if lay and sum(copy.cut_piece.area for copy in lay.copies() if copy.spare) <= _FEW_SPARE * sum(
            cut_piece.area * cut_piece.count for cut_piece in size.cut_pieces
        ):
            held.append(size)
    return cloth_needs(held, [cloth], spent, foldings=once)[0] if held else ()


def _thriftier(thrifty: Row, folded: Row) -> Row:
    """The sizes for which a shop sells less than of folded cloth, or for which there is no folded layout."""
    beside = {need.size: need for need in folded}
    return tuple(need for need in thrifty if need.size not in beside or _is_thriftier(need, beside[need.size]))


def _with(shorter: Row, folded: Row) -> Row:
    """The thriftier needs, and those of folded cloth for all other sizes."""
    names = {need.size for need in shorter}
    return (*shorter, *(need for need in folded if need.size not in names))


def _is_thriftier(need: ClothNeed, other: ClothNeed) -> bool:
    """Whether less is bought, in metres and in yards."""
    return all(less < more for less, more in zip(_sold_by(need), _sold_by(other), strict=True))


def _sold(need: ClothNeed) -> float:
    """What is bought, mm: the mean of what is cut by the yard and by the metre."""
    return sum(_sold_by(need)) / 2


def _sold_by(need: ClothNeed) -> tuple[float, ...]:
    """What is bought, mm, where a shop cuts by the yard, and where it cuts by the metre."""
    return tuple(rounded_up(need.bought, step) for step in (EIGHTH_YARD, FIVE_CENTIMETRES))


def _drawn(garment: Garment, row: Row, wording: Wording) -> list[LayPicture]:
    return [group_picture(garment, group, wording) for group in groups(row)]
