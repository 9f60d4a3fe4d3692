"""What a piece says of how it is cut: how often, of which cloths, for which of its sides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from draft.base.notes import Note, Span, error, nearest
from draft.garment.garment import CutOf, Layer
from draft.language import tree
from draft.plan.plan import Value
from draft.plan.styles.branches import as_written
from draft.plan.values import Values

MOST_CUT = 100  # more copies of one piece in one garment are a slip of the pen
_OTHER: dict[Layer, Layer] = {"outside": "inside", "inside": "outside"}


class Cutting:
    """Reads the `cut` lines of pieces."""

    def __init__(self, values: Values) -> None:
        self.values = values
        self.notes = values.notes

    def cuts(self, piece: tree.Piece, setting: tree.Setting | None) -> tuple[CutOf[Value], ...]:
        """What is cut of a piece: nothing of a block, one where it does not say, with a note."""
        if piece.is_block:
            if setting is not None:
                fix = f"write `piece` for `block`, or trace one: `piece ... from {piece.name}`"
                self.notes.append(error(f"`{piece.name}` is a block, which is not cut", setting.span, fix))
            return ()
        if not isinstance(setting, tree.Cut):
            fact = f"`{piece.name}` does not say how many to cut"
            self.notes.append(error(fact, piece.name_span, f"add a line `cut 1{self._of()}`"))
            return (CutOf(1),)
        before = len(self.notes)
        found = tuple(self._part(part) for part in setting.parts)
        if len(self.notes) == before:
            self.notes += self._together(piece.name, setting, found)
        return found[:1] + tuple(self._with_allowance(cut, found[0].cloth) for cut in found[1:])

    def _with_allowance(self, cut: CutOf[Value], first: str) -> CutOf[Value]:
        own = self.values.cloths.allowances.get(cut.cloth)
        return replace(cut, allowance=own) if own and cut.cloth != first else cut

    def _of(self) -> str:
        named = list(self.values.cloths.written)
        return f" of {named[0]}" if len(named) > 1 else ""

    def _part(self, part: tree.CutPart) -> CutOf[Value]:
        count = float(part.count)
        cloth = self._cloth(part)
        if count != int(count) or not 1 <= count <= MOST_CUT:
            self.notes.append(error(f"`{part.count}` is not a number of pieces", part.count_span, "try `cut 1`"))
        elif part.cut_as == "as a pair" and count % 2:
            fact = "pairs are cut from an even number of pieces"
            of = f" of {part.cloth.text}" if part.cloth else ""
            self.notes.append(error(fact, part.count_span, f"try `{int(count) + 1}{of} as a pair`"))
        return CutOf(int(min(count, MOST_CUT)), cloth, part.cut_as, part.layer)

    def _cloth(self, part: tree.CutPart) -> str:
        """The name of the cloth, where it is said or is the only one."""
        known = list(self.values.cloths.written)
        if part.cloth is None:
            if len(known) < 2:
                return known[0] if known else ""
            fact = f"`{part.span.text}` does not say of which cloth"
            self.notes.append(error(fact, part.span, f"write `{part.count} of {known[0]}`, or another cloth"))
            return known[0]
        if part.cloth.text not in known:
            self.notes.append(self._unknown(part.cloth, known))
        return part.cloth.text

    def _unknown(self, cloth: tree.Ref, known: list[str]) -> Note:
        name = cloth.text
        if only := self.values.names.left_out.get(name):
            fact = f"`{name}` is there only when {as_written(only)}, and another option is chosen"
            return error(fact, cloth.span, f"put this under `when {as_written(only)}`")
        fix = f'declare it among the blocks: `fabric {name} "what cloth it is"`'
        return error(f"no cloth is called `{name}`", cloth.span, *(nearest(name, known) or (fix,)))

    def _together(self, name: str, setting: tree.Cut, cuts: tuple[CutOf[Value], ...]) -> Iterator[Note]:
        """What the parts of one line say against one another."""
        total = sum(cut.count for cut in cuts)
        if total > MOST_CUT:
            fact = f"`{name}` is cut {total} times in all, and no piece is cut more than {MOST_CUT} times"
            yield error(fact, setting.value_span, "is there a digit too many?")
        for k, (cut, part) in enumerate(zip(cuts, setting.parts, strict=True)):
            for earlier, first in zip(cuts[:k], setting.parts[:k], strict=True):
                if cut.cloth == earlier.cloth and (cut.layer == earlier.layer or not (cut.layer and earlier.layer)):
                    yield _cloth_twice(cut, part.span, first.span)
                    return
        yield from _both_sides(name, setting, cuts)


def _cloth_twice(cut: CutOf[Value], span: Span, first: Span) -> Note:
    of = f" of `{cut.cloth}`" if cut.cloth else ""
    fact = f"this is cut twice{of}"
    fix = "say both as one number; or, of two sides of the piece, which is which: `as outside`, `as inside`"
    return error(fact, span, fix, related=[(first, "it is first said here")])


def _both_sides(name: str, setting: tree.Cut, cuts: tuple[CutOf[Value], ...]) -> Iterator[Note]:
    counts = {layer: sum(cut.count for cut in cuts if cut.layer == layer) for layer in _OTHER}
    for layer, other in _OTHER.items():
        if counts[layer] and not counts[other]:
            part = next(part for part in setting.parts if part.layer == layer)
            also = f"{part.count} of {part.cloth.text}" if part.cloth else part.count
            fact = f"`{name}` has an {layer} and no {other}"
            yield error(fact, part.span, f"add `, {also} as {other}`; or take `as {layer}` out")
    if counts["outside"] and counts["inside"] and counts["outside"] != counts["inside"]:
        fact = f"`{name}` has {counts['outside']} as outside and {counts['inside']} as inside"
        yield error(fact, setting.value_span, "cut as many of both: each outside is sewn to an inside")


def how_many(cuts: tuple[CutOf[Value], ...]) -> int:
    """How many pieces are sewn: layers, and cloths that lie on one another, are one piece."""
    lying = {cut.layer or cut.cloth for cut in cuts}
    return max((sum(cut.count for cut in cuts if (cut.layer or cut.cloth) == one) for one in lying), default=0)
