"""The cloths of a pattern that is cut of several: what is known of each, and which pieces are cut of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field

from draft.base.notes import Note, error
from draft.base.record import dataclass
from draft.fabrics.fabric import Fabric
from draft.garment.garment import ClothOf, PieceOf
from draft.language import tree
from draft.plan.cloths.cloth_properties import cloth_described, settle_cloth
from draft.plan.names import twice
from draft.plan.plan import Style, Value


@dataclass
class Cloths:
    """The cloths that a pattern names, in its order: as written, with their figures and allowances settled."""

    written: dict[str, tree.Cloth] = field(default_factory=dict)
    settled: dict[str, dict[str, tree.Literal]] = field(default_factory=dict)
    allowances: dict[str, Value] = field(default_factory=dict)

    def settle(self, file: tree.File, fabric: Fabric | None, notes: list[Note]) -> None:
        """Takes up the cloths of a file; the reader's fabric is the first of them."""
        notes += twice((cloth.name, cloth.name_span) for cloth in file.cloths)
        if file.cloths and file.properties:
            first = file.cloths[0].name
            fact = f"this cloth has no name, and `{first}` beside it has one"
            fix = f"put these lines under `fabric {first}`, or give this cloth a name too"
            notes.append(error(fact, file.properties[0].span, fix))
        for cloth in file.cloths:
            if cloth.name not in self.written:
                reader = None if self.written else fabric
                self.written[cloth.name] = cloth
                notes += twice((line.name, line.name_span) for line in cloth.properties)
                notes += twice((line.word, line.span) for line in cloth.allowances)
                self.settled[cloth.name] = settle_cloth(cloth.properties, reader, notes)

    def known(self, name: str, fabric: Fabric | None) -> Mapping[str, float]:
        """The figures of one cloth: the reader's for the first, and the pattern's own."""
        own = {key: literal.value for key, literal in self.settled[name].items()}
        return own | dict(fabric.values if fabric and name == next(iter(self.written)) else {})

    def planned(self, pieces: Sequence[PieceOf[Value, Value]], fabric: Fabric | None) -> Iterator[ClothOf[Value]]:
        """The cloths of which a piece is cut."""
        cut = {cut.cloth for piece in pieces for cut in piece.cuts}
        for name, cloth in self.written.items():
            if name in cut:
                yield ClothOf(cloth.span, name, cloth.words, self.known(name, fabric), self.allowances.get(name))

    def described(self) -> tuple[Style, ...]:
        """Their properties, as the command line lists them."""
        return tuple(style for name in self.written for style in self._described(name))

    def _described(self, name: str) -> Iterator[Style]:
        for style in cloth_described(self.written[name].properties, self.settled[name]):
            yield Style(style.span, f"{name}.{style.name}", style.words, style.set_to, style.limits)


def never_cut(file: tree.File, used: Iterable[tree.File]) -> Iterator[Note]:
    """Notes on cloths that no piece is cut of, whatever is chosen of the styles."""
    bodies = [sheet.body for one in (file, *used) for sheet in one.pieces]
    bodies += [template.body for one in (file, *used) for template in one.templates]
    cuts = [setting for body in bodies for setting in body.settings if isinstance(setting, tree.Cut)]
    named = {part.cloth.text for cut in cuts for part in cut.parts if part.cloth}
    for cloth in file.cloths:
        if cloth.name not in named and len({other.name for other in file.cloths}) > 1:
            fix = f"say it where a piece is: `cut 1 of {cloth.name}`; or take the cloth out"
            yield error(f"no piece is cut of `{cloth.name}`", cloth.name_span, fix)
