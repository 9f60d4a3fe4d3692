"""What a designer adds to the booklet of her pattern: words and pictures, a licence and a link."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from pathlib import Path

from draft.base.notes import Note, Problems, Severity, Span, caution, error, nearest
from draft.base.record import dataclass
from draft.language import tree
from draft.plan.library import beside

PICTURES = ".svg"
LONGEST_LINK = 362
"""Bytes in the largest code that the booklet has room for: version 14, level M (ISO/IEC 18004)."""


@dataclass(frozen=True)
class Picture:
    """A drawing in a file beside the pattern."""

    span: Span
    file: Path


@dataclass(frozen=True)
class Advice:
    """What is added to a step, or a step of the designer's own.

    It is about a join, an edge of a piece that is hemmed or has darts (`front.hem`), or a row of buttonholes. With a
    `place` it stands before, after or instead of the step `beside`; it is her `own` where nothing sewn has its name.
    """

    span: Span
    to: str
    text: str
    picture: Picture | None
    place: tree.StepPlace = ""
    beside: str = ""
    own: bool = False
    link: str = ""


@dataclass(frozen=True)
class Booklet:
    """The designer's own lines, each in the order that it was written in; `topics` by what they are about."""

    texts: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    licence: str = ""
    link: str = ""
    advice: tuple[Advice, ...] = ()
    topics: tuple[tuple[str, str], ...] = ()

    def about(self, topic: str) -> tuple[str, ...]:
        """The paragraphs about one of the topics."""
        return tuple(text for about, text in self.topics if about == topic)


NOTHING = Booklet()
TOPICS = ("garment", "skill", "cloth", "fitting", "care", "testing")
"""What a paragraph may be about; each is printed where the booklet speaks of that."""


@dataclass(frozen=True)
class Steps:
    """What has a step of the booklet: seams by their names, and what stands in pieces, as in `front.hem`."""

    seams: frozenset[str]
    in_pieces: frozenset[str]

    @property
    def all(self) -> frozenset[str]:
        """Every name that a step may be about."""
        return self.seams | self.in_pieces


_Line = tree.Setting | tree.Topic | tree.Advice


def booklet(lines: Sequence[_Line], known: Steps, folder: Path, notes: list[Note]) -> Booklet:
    """The booklet that the lines make; `known` is what a step may be about.

    A picture that is not there is left out with a caution, so that a pattern can be drafted before it is drawn.
    """
    settings = [line for line in lines if isinstance(line, tree.Setting)]
    said: dict[str, list[str]] = {}
    for setting in settings:
        said.setdefault(setting.word, []).append(str(setting.value))
    pictures = [_picture(setting, folder, notes) for setting in settings if setting.word == "picture"]
    for setting in settings:
        if setting.word == "link":
            _check_link(setting, notes)
    return Booklet(
        texts=tuple(said.get("text", ())),
        pictures=tuple(picture for picture in pictures if picture),
        licence=said.get("licence", [""])[-1],
        link=said.get("link", [""])[-1],
        advice=_all_advice([line for line in lines if isinstance(line, tree.Advice)], known, folder, notes),
        topics=tuple(_topic(line, notes) for line in lines if isinstance(line, tree.Topic)),
    )


def _check_link(setting: tree.Setting, notes: list[Note]) -> None:
    if not _leads_somewhere(str(setting.value)):
        notes.append(error("a link begins with `https://` and holds no spaces", setting.value_span))
    elif (long := len(str(setting.value).encode())) > LONGEST_LINK:
        fact = f"a link of {long} letters is too long for a code that a telephone reads off paper, which holds"
        notes.append(error(f"{fact} {LONGEST_LINK}", setting.value_span, "give a shorter one, of a page that leads on"))


def _leads_somewhere(link: str) -> bool:
    plain = link.isprintable() and not any(letter.isspace() for letter in link)
    return plain and link.startswith(("https://", "http://")) and len(link) > len("https://")


def _topic(line: tree.Topic, notes: list[Note]) -> tuple[str, str]:
    if line.about not in TOPICS:
        hint = nearest(line.about, TOPICS) or (f"choose from {', '.join(TOPICS)}",)
        notes.append(error(f"the booklet has no place for words about `{line.about}`", line.about_span, *hint))
    return line.about, line.text


# ---- steps ----------------------------------------------------------------------------------------------------------


def _all_advice(lines: Sequence[tree.Advice], known: Steps, folder: Path, notes: list[Note]) -> tuple[Advice, ...]:
    own = {line.to.text for line in lines if line.beside and line.to.text not in known.all}
    found = tuple(_advice(line, known, own, folder, notes) for line in lines)
    _note_placed_twice(found, notes)
    _note_rings(found, notes)
    return found


def _advice(line: tree.Advice, known: Steps, own: Collection[str], folder: Path, notes: list[Note]) -> Advice:
    name = line.to.text
    _check_names(line, known, own, notes)
    if not line.text and line.picture is None and line.link is None and (name in own or not line.beside):
        notes.append(error("this step adds nothing", line.span, f'try `{" ".join(line.span.text.split())} "..."`'))
    picture = _picture(line.picture, folder, notes) if line.picture else None
    if line.link:
        _check_link(line.link, notes)
    link, beside = str(line.link.value) if line.link else "", line.beside.text if line.beside else ""
    return Advice(line.span, name, line.text, picture, line.place, beside, name in own, link)


def _check_names(line: tree.Advice, known: Steps, own: Collection[str], notes: list[Note]) -> None:
    """Every step that is named is one that is sewn, or one of the designer's own."""
    for ref in [ref for ref in (line.to, line.beside) if ref]:
        if ref.text in known.all or (ref.text in own and len(ref.parts) == 1):
            continue
        hint = nearest(ref.text, (*known.all, *own)) or ("give the name of a join, or a hem such as `front.hem`",)
        if ref is line.to and not line.beside and len(ref.parts) == 1 and not nearest(ref.text, known.all):
            hint = (*hint, f"or say where a step of your own comes: `step {ref.text} after ...`")
        notes.append(error(f"`{ref.text}` is neither a join nor a hem", ref.span, *hint))
    if line.place == "instead of" and line.to.text in known.all:
        fact = f"`{line.to.text}` is a step that is there already, so it cannot stand instead of another"
        notes.append(error(fact, line.to.span, "give the step a name of its own"))


def _note_placed_twice(found: Sequence[Advice], notes: list[Note]) -> None:
    first: dict[str, Advice] = {}
    for advice in [one for one in found if one.place]:
        before = first.setdefault(advice.to, advice)
        if before is not advice:
            related = [(before.span, "it is first placed here")]
            notes.append(error(f"`{advice.to}` is given two places", advice.span, "keep one of them", related=related))


def _note_rings(found: Sequence[Advice], notes: list[Note]) -> None:
    """A note on the first of some steps that wait for one another."""
    placed = {advice.to: advice for advice in found if advice.place}
    told: set[str] = set()
    for advice in placed.values():
        walked = [advice.to]
        while (before := placed.get(walked[-1])) and before.beside not in walked:
            walked.append(before.beside)
        if before and before.beside == advice.to and not told & set(walked):
            told |= set(walked)
            ring = " by ".join(f"`{name}`" for name in (*walked, advice.to))
            notes.append(error(f"these steps are placed in a ring: {ring}", advice.span, "place one by another step"))


def _picture(setting: tree.Setting, folder: Path, notes: list[Note]) -> Picture | None:
    if not str(setting.value).lower().endswith(PICTURES):
        notes.append(caution(f"`{setting.value}` is left out: a picture is an SVG file", setting.value_span))
        return None
    try:
        return Picture(setting.value_span, beside(folder, setting))
    except Problems as problems:
        notes += [replace(note, severity=Severity.CAUTION) for note in problems.notes]
        return None
