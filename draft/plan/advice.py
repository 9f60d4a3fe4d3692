"""What a designer adds to the booklet of her pattern: words and pictures, a licence and a link."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from pathlib import Path

from draft.base.notes import Note, Problems, Severity, Span, caution, error, nearest
from draft.base.record import dataclass
from draft.language import tree
from draft.plan.library import beside

PICTURES = ".svg"


@dataclass(frozen=True)
class Picture:
    """A drawing in a file beside the pattern."""

    span: Span
    file: Path


@dataclass(frozen=True)
class Advice:
    """What is added to the sewing of one join, or of one edge of a piece (`front.hem`)."""

    span: Span
    to: str
    text: str
    picture: Picture | None


@dataclass(frozen=True)
class Booklet:
    """The designer's own lines, each in the order that it was written in."""

    texts: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    licence: str = ""
    link: str = ""
    advice: tuple[Advice, ...] = ()


NOTHING = Booklet()


def booklet(
    lines: Iterable[tree.Setting | tree.Advice], known: Collection[str], folder: Path, notes: list[Note]
) -> Booklet:
    """The booklet that the lines make; `known` are the joins and hems that a step may be about.

    A picture that is not there is left out with a caution, so that a pattern can be drafted before it is drawn.
    """
    settings = [line for line in lines if isinstance(line, tree.Setting)]
    said: dict[str, list[str]] = {}
    for setting in settings:
        said.setdefault(setting.word, []).append(str(setting.value))
    pictures = [_picture(setting, folder, notes) for setting in settings if setting.word == "picture"]
    for setting in settings:
        if setting.word == "link" and not _leads_somewhere(str(setting.value)):
            notes.append(error("a link begins with `https://` and holds no spaces", setting.value_span))
    return Booklet(
        texts=tuple(said.get("text", ())),
        pictures=tuple(picture for picture in pictures if picture),
        licence=said.get("licence", [""])[-1],
        link=said.get("link", [""])[-1],
        advice=tuple(_advice(line, known, folder, notes) for line in lines if isinstance(line, tree.Advice)),
    )


def _leads_somewhere(link: str) -> bool:
    plain = link.isprintable() and not any(letter.isspace() for letter in link)
    return plain and link.startswith(("https://", "http://")) and len(link) > len("https://")


def _advice(line: tree.Advice, known: Collection[str], folder: Path, notes: list[Note]) -> Advice:
    name = line.to.text
    if name not in known:
        hint = nearest(name, known) or ("give the name of a join, or a hem such as `front.hem`",)
        notes.append(error(f"`{name}` is neither a join nor a hem", line.to.span, *hint))
    if not line.text and line.picture is None:
        notes.append(error("this step adds nothing", line.span, f'try `step {name} "..."`'))
    picture = _picture(line.picture, folder, notes) if line.picture else None
    return Advice(line.span, name, line.text, picture)


def _picture(setting: tree.Setting, folder: Path, notes: list[Note]) -> Picture | None:
    if not str(setting.value).lower().endswith(PICTURES):
        notes.append(caution(f"`{setting.value}` is left out: a picture is an SVG file", setting.value_span))
        return None
    try:
        return Picture(setting.value_span, beside(folder, setting))
    except Problems as problems:
        notes += [replace(note, severity=Severity.CAUTION) for note in problems.notes]
        return None
