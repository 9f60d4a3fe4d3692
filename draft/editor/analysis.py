"""One text looked at: its notes, its names and its plan, as far as there are any."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field, replace
from functools import cached_property
from pathlib import Path

from draft.base.notes import Note, Problems, Source, Span, error, once
from draft.base.record import dataclass
from draft.base.textfile import LARGEST
from draft.base.units import Kind
from draft.editor.finding import Others, symbols
from draft.editor.shelf import Shelf
from draft.editor.symbols import Symbols
from draft.language import tree
from draft.plan.library import Texts, chart_of, with_used
from draft.plan.make import plan_texts
from draft.plan.plan import Plan
from draft.words import STRETCH


@dataclass(frozen=True)
class Analysis:
    """What there is to say about a text; `file` holds the lines that could be read.

    It is planned when its notes or its plan are asked for: names alone, as a completion needs them, come sooner.
    """

    source: Source
    file: tree.File | None
    used: tuple[tree.File, ...]
    unread: tuple[Note, ...]
    """On the lines that could not be read."""
    texts: Texts | None = None
    others: Others = ()
    places: Mapping[str, Path] = field(default_factory=dict, compare=False)
    """Where the files lie that it leads to, by their names."""

    @cached_property
    def symbols(self) -> Symbols:
        """The names of the lines that could be read."""
        return symbols(self.file, self.used, self.others) if self.file else Symbols()

    @property
    def whole(self) -> bool:
        """Whether every line could be read."""
        return self.texts is not None

    @property
    def plan(self) -> Plan | None:
        """The plan; None with any mistake."""
        return self._planned[0]

    @property
    def notes(self) -> tuple[Note, ...]:
        """What there is to say."""
        return self._planned[1]

    @property
    def is_planned(self) -> bool:
        """Whether the plan has been asked for."""
        return "_planned" in vars(self)

    @cached_property
    def _planned(self) -> tuple[Plan | None, tuple[Note, ...]]:
        plan, notes = _plan(self.texts) if self.texts and not self.unread else (None, self.unread)
        return plan, once(notes)


def analyse(source: Source, directory: Path, shelf: Shelf | None = None) -> Analysis:
    """Read a text that lies, or will lie, in a folder. Never raises for what the text says."""
    if len(source.text) > LARGEST:
        fact = "this text is over 1 MB, too large for a pattern"
        return Analysis(source, None, (), (error(fact, Span(source, 0, 1)),))
    reading = _Reading(shelf or Shelf())
    file, notes = reading.shelf.read(source)
    if file is None:
        return Analysis(source, None, (), tuple(notes))
    try:
        texts = with_used(file, directory, reading)
    except Problems as problems:
        said, whole = (tuple(notes), None) if notes else (problems.notes, Texts(file, (), directory))
        return Analysis(source, file, (), said, whole, places=reading.places)
    whole = None if notes else texts
    return Analysis(source, file, texts.templates, tuple(notes), whole, texts.others, reading.places)


class _Reading:
    """Reads the files that a text leads to, and remembers where they lie."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf
        self.places: dict[str, Path] = {}

    def __call__(self, path: Path) -> tree.File:
        self.places[path.name] = path
        return self.shelf.tree(path)


def _plan(texts: Texts) -> tuple[Plan | None, tuple[Note, ...]]:
    if texts.main.templates and not texts.main.patterns:
        return None, _templates(texts)
    try:
        plan = plan_texts(texts, {})
        chart_of(texts)
        return plan, plan.notes
    except Problems as problems:
        return None, problems.notes


# ---- a file of templates --------------------------------------------------------------------------------------------


def _templates(texts: Texts) -> tuple[Note, ...]:
    """What is wrong with the templates of a file, seen by making a piece of each from inputs of the right kinds.

    A template that leans on a name of the pattern that uses it can only be looked at from there, and so can one that
    is handed points or edges.
    """
    file = texts.main
    handed = [line for t in file.templates for line in t.body.inputs if line.kind in (Kind.POINT, Kind.EDGE)]
    if handed or symbols(file, texts.used, texts.others).unknown:
        return ()
    first = file.templates[0]
    head = tree.Pattern(first.span, "templates", first.name_span, ())
    made = replace(file, patterns=(head,), pieces=tuple(map(_piece, file.templates)))
    try:
        return plan_texts(Texts(made, texts.used, texts.beside), {}).notes
    except Problems as problems:
        return tuple(_of(file.span.source, problems.notes))


def _of(source: Source, notes: Iterable[Note]) -> Iterable[Note]:
    return (note for note in notes if note.span is None or note.span.source is source)


def _piece(template: tree.Template) -> tree.Piece:
    given = tuple(
        tree.Definition(line.span, line.name, line.name_span, _some(line), "")
        for line in template.body.inputs
        if line.default is None
    )
    at = template.name_span
    cut = tree.Cut(at, "cut", "1", at, (tree.CutPart(at, "1", None, "", "", at),))
    settings = () if any(setting.word == "cut" for setting in template.body.settings) else (cut,)
    body = tree.Contents(template.span, (), given, (), (), (), settings)
    ref = tree.Ref(template.name_span, (template.name,))
    return tree.Piece(template.span, template.name, template.name_span, ref, body)


def _some(line: tree.Input) -> tree.Expr:
    if line.kind is Kind.CHOICE:
        return tree.Ref(line.span, line.options[:1])
    if line.kind is Kind.DIRECTION:
        return tree.Call(line.span, STRETCH, ())
    return tree.Literal(line.span, 1.0, line.kind)
