"""How everything printed is said: in which language, and with which units of length.

All words stand in the files of `languages/`, one a language with the same keys. What a pattern says itself is printed
as its designer wrote it, unless a file of translations lies beside the pattern.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import field
from functools import cached_property
from typing import get_args

from draft.base.naming import SIZE_CODE, and_list
from draft.base.notes import Problems, error, nearest
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH, in_inches, settled
from draft.garment.garment import CutAs, Edge, Garment, Piece
from draft.paper.drawing.called import Called
from draft.paper.drawing.imprint import Imprint
from draft.paper.drawing.spoken_languages import Units, stop_unless_spoken, texts_of
from draft.seams.hem_names import called_on_paper

_SAME = 0.05
"""Allowances within this many mm are one allowance: far below what a maker can cut."""


def capitalised(text: str) -> str:
    """The text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


@dataclass(frozen=True)
class Wording:
    """One language (a code such as `en`) and the units that lengths are given in.

    `own` holds what the pattern's designer wrote, by the text in the pattern. Raises Problems for a language that
    there is no file for, or other units.
    """

    language: str = "en"
    units: Units = "both"
    own: Mapping[str, str] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        stop_unless_spoken(self.language)
        if self.units not in get_args(Units):
            raise Problems([error(f"`{self.units}` are not units", None, *nearest(self.units, get_args(Units)))])

    @cached_property
    def _all(self) -> Mapping[str, str]:
        return texts_of(self.language)

    def say(self, key: str, **fields: object) -> str:
        """The text of a key, filled in. Raises KeyError if the language lacks it."""
        return self._all[key].format(**fields) if fields else self._all[key]

    def has(self, key: str) -> bool:
        """Whether the language has a text of this key."""
        return key in self._all

    def texts(self, begin: tuple[str, ...]) -> dict[str, str]:
        """All texts whose keys begin so."""
        return {key: text for key, text in self._all.items() if key.startswith(begin)}

    def keys(self, before: str) -> list[str]:
        """The texts' keys that begin so, without their last part, each once and in order."""
        return list(dict.fromkeys(key.rpartition(".")[0] for key in self._all if key.startswith(before)))

    def named(self, text: str) -> str:
        """What the pattern calls something, in this language: by the pattern's translations, or as a term of the trade.

        Without either it stays as it was written.
        """
        thing, _, one = text.rpartition(", ")  # a piece of one side, or a garment in the sizes of another chart
        if thing and text not in self.own and (one in ("left", "right") or thing in self.own):
            return ", ".join(map(self.named, (thing, one)))
        plain = text.replace("_", " ")
        found = self.own.get(text) or self.own.get(plain) or self._all.get(f"names.{plain}") or plain
        return found.replace("'", "’")

    def option(self, name: str) -> str:
        """An option of a style, as it is chosen: `long` of a sleeve is not what `long` is of a band's edges."""
        found = None if name in self.own else self._all.get(f"options.{name.replace('_', ' ')}")
        return found or self.named(name)

    def titled(self, garment: Garment) -> str:
        """The pattern's name as it is printed, and whether its pieces are for unwashed cloth."""
        title = self.named(garment.title)
        return self.say("sheet.unwashed", title=title) if garment.unwashed else title

    def edge(self, name: str) -> str:
        """An edge as it is called, or the part of one between two places on it."""
        edge, *ends = name.replace(" to ", " from ").split(" from ")
        if not ends:
            return self.named(name)
        start, end = map(self.named, ends)
        return self.say("piece.part", edge=self.named(edge), start=start, end=end)

    # ---- lengths

    def length(self, mm: float, denominator: int = 8) -> str:
        """`1/2 in (1.3 cm)`, or one of the two."""
        if self.units == "in":
            return self.inches(mm, denominator)
        if self.units == "cm":
            return self.centimetres(mm)
        return self.say("units.both", inches=self.inches(mm, denominator), centimetres=self.centimetres(mm))

    def length_bought(self, mm: float) -> str:
        """A length of tape or elastic as it is asked for in a shop: `56 in (140 cm)`, whole inches that are enough."""
        inches = f"{math.ceil(mm / MM_PER_INCH - 0.01)} {self.say('units.inch')}"
        centimetres = self.centimetres(mm)
        both = self.say("units.both", inches=inches, centimetres=centimetres)
        return {"in": inches, "cm": centimetres, "both": both}[self.units]

    def none(self) -> str:
        """No length at all: `0 cm`, which is as much in inches."""
        return f"0 {self.say('units.inch' if self.units == 'in' else 'units.centimetre')}"

    def inches(self, mm: float, denominator: int = 8) -> str:
        """`9 5/8 in`."""
        return f"{self.inch_figure(mm, denominator)} {self.say('units.inch')}"

    def inch_figure(self, mm: float, denominator: int = 8) -> str:
        """`9 5/8`."""
        return in_inches(mm, denominator).removesuffix(" in")

    def centimetres(self, mm: float, places: int = 1) -> str:
        """`24.5 cm`."""
        return f"{self.number(mm / 10, places)} {self.say('units.centimetre')}"

    def number(self, value: float, places: int = 1) -> str:
        """A decimal with no zeros at its end."""
        text = f"{settled(value):.{places}f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
        return ("0" if text in ("-0", "") else text).replace(".", self.say("units.decimal"))

    def fixed(self, value: float, places: int) -> str:
        """A decimal of just so many places, as a shop writes metres: `1.50`."""
        return f"{settled(value):.{places}f}".replace(".", self.say("units.decimal"))

    def date(self, day: str) -> str:
        """A day such as `2026-05-04` as the language writes it."""
        year, month, number = day.split("-")
        return self.say("units.date", year=year, month=month, day=number)

    def percent(self, share: float) -> str:
        """`85 %`."""
        return self.say("units.percent", number=self.number(share * 100, 0))

    def listed(self, parts: Sequence[str]) -> str:
        """`a, b and c`."""
        return and_list(parts, self.say("units.and"))

    def called(self, names: Sequence[str]) -> Called:
        """Things as they are printed, to be called within a sentence: with the article where the language bends it."""
        return Called(names, self._all)

    # ---- pieces

    def title(self, piece: Piece) -> str:
        """A piece's name, with a capital: `Sleeve band`."""
        return capitalised(self.named(piece.title))

    @staticmethod
    def is_size(name: str) -> bool:
        """Whether a body's name is that of a size, such as `M` or `38`, and not of a person."""
        return bool(SIZE_CODE.fullmatch(name))

    def sizes(self, names: Sequence[str]) -> str:
        """`Size M`, `Sizes XS – 3XL`, or a person's name as it is."""
        if len(names) == 1:
            return self.say("piece.size", size=names[0]) if self.is_size(names[0]) else names[0]
        return self.say("piece.sizes", first=names[0], last=names[-1]) if names else ""

    def sheet_title(self, title: str, names: Sequence[str]) -> str:
        """`Easy knit top, sizes XS – 3XL`."""
        if len(names) == 1 and self.is_size(names[0]):
            return self.say("piece.of_size", title=title, size=names[0])
        if len(names) > 1:
            return self.say("piece.of_sizes", title=title, first=names[0], last=names[-1])
        return ", ".join((title, *names))

    def imprint(self, imprint: Imprint) -> str:
        """Who made a pattern, which version it is, and its licence."""
        by = self.say("book.by", maker=imprint.maker) if imprint.maker else ""
        return imprint.line(by, self.say("book.version", version=imprint.version) if imprint.version else "")

    def cut(self, piece: Piece) -> str:
        """`Cut 1 on fold`, or `Shell: cut 2 as a mirrored pair; interfacing: cut 1`."""
        first, *more = self.cuts(piece)
        names = [self.named(cloth) for cloth in dict.fromkeys(cut.cloth for cut in piece.cuts)][1:]
        rest = [(name or line.lower())[:1] + line[1:] for name, line in zip(names, more, strict=True)]
        return "; ".join([first, *rest])

    def cuts(self, piece: Piece) -> tuple[str, ...]:
        """How a piece is cut, a line for each of its cloths."""
        if not piece.cuts:
            return (self._cut(piece.cut, piece.cut_as, piece.on_fold),)
        cloths = list(dict.fromkeys(cut.cloth for cut in piece.cuts))
        return tuple(self._cut_of(cloth, piece) for cloth in cloths)

    def _cut_of(self, cloth: str, piece: Piece) -> str:
        """`Shell: cut 2 on fold, outside and inside`."""
        cuts = [cut for cut in piece.cuts if cut.cloth == cloth]
        said = self._cut(sum(cut.count for cut in cuts), cuts[0].cut_as, piece.on_fold)
        layers = [self.say(f"piece.{cut.layer}") for cut in cuts if cut.layer]
        said = self.say("piece.layers", cut=said, layers=self.listed(layers)) if layers else said
        if (own := cuts[0].allowance) is not None:
            key = "piece.cut_allowance" if round(own / _SAME) else "piece.cut_bare"
            said = self.say(key, cut=said, length=self.length(own))
        if not cloth:
            return said
        return self.say("piece.cut_of", cloth=capitalised(self.named(cloth)), cut=said[:1].lower() + said[1:])

    def _cut(self, count: int, cut_as: CutAs, on_fold: bool) -> str:
        """`Cut 1 on fold`, `Cut 2`, `Cut 2 as a mirrored pair` or `Cut 1, right side up`."""
        if cut_as == "as a pair":
            return self.say("piece.cut_pair" if count == 2 else "piece.cut_pairs", count=count)
        key = "piece.cut_on_fold" if on_fold else "piece.cut"
        return self.say(key + ("_right_side_up" if cut_as == "right side up" else ""), count=count)

    def gather(self, mm: float | None) -> str:
        """`gather to 8 in (20.3 cm)`, or the word alone where each size has a length of its own."""
        return self.say("piece.gather") if mm is None else self.say("piece.gather_to", length=self.length(mm))

    def elastic(self, mm: float | None) -> str:
        """`elastic, 9 1/2 in (24.1 cm) once sewn in`, or the word alone where each size has a length of its own."""
        return self.say("piece.elastic") if mm is None else self.say("piece.elastic_of", length=self.length(mm))

    def allowances(self, piece: Piece) -> tuple[str, ...]:
        """What lies outside the sewing line, read off the edges: what most seams have, then the edges that differ."""
        edges = [edge for edge in piece.edges if not edge.on_fold]
        if not edges:
            return ()
        seams = [edge for edge in edges if not edge.turned_up] or edges
        common = Counter(_steps(edge) for edge in seams).most_common(1)[0][0]
        groups: dict[tuple[int, bool], list[str]] = {}
        for edge in edges:
            if _steps(edge) != common:
                alike = groups.setdefault((_steps(edge), edge.turned_up), [])
                alike.append(self.named(edge.whole or called_on_paper(piece, edge)))
        return (self._common(common), *(self._other(*alike, names) for alike, names in groups.items()))

    def _common(self, steps: int) -> str:
        return (
            self.say("piece.allowance", length=self.length(steps * _SAME)) if steps else self.say("piece.no_allowance")
        )

    def _other(self, steps: int, turned_up: bool, names: Sequence[str]) -> str:
        edges = self.listed(list(dict.fromkeys(names)))
        if not steps:
            return self.say("piece.edge_without", edges=edges)
        key = "piece.hem_allowance" if turned_up else "piece.edge_allowance"
        return self.say(key, edges=edges, length=self.length(steps * _SAME))


def _steps(edge: Edge) -> int:
    return round(edge.allowance / _SAME)


ENGLISH = Wording()
