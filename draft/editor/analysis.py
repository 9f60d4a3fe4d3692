"""One text looked at: its notes, its names and its plan, as far as there are any."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property, lru_cache
from pathlib import Path

from draft.base.notes import Note, Problems, Source, Span, error
from draft.base.record import dataclass
from draft.base.textfile import LARGEST
from draft.base.units import Kind
from draft.editor.finding import Others, symbols
from draft.editor.symbols import Symbols
from draft.language import tree
from draft.language.reader import read_partly
from draft.plan.library import Texts, chart_of, read_used, with_used
from draft.plan.make import plan_texts
from draft.plan.plan import Plan
from draft.words import STRETCH


@dataclass(frozen=True)
class Analysis:
    """What there is to say about a text; `file` holds the lines that could be read, `plan` is None with any mistake."""

    source: Source
    file: tree.File | None
    used: tuple[tree.File, ...]
    notes: tuple[Note, ...]
    texts: Texts | None = None
    plan: Plan | None = None
    others: Others = ()

    @cached_property
    def symbols(self) -> Symbols:
        """The names of the lines that could be read."""
        return symbols(self.file, self.used, self.others) if self.file else Symbols()

    @property
    def whole(self) -> bool:
        """Whether every line could be read."""
        return self.texts is not None


def analyse(source: Source, directory: Path) -> Analysis:
    """Read and plan a text that lies, or will lie, in a folder. Never raises for what the text says."""
    if len(source.text) > LARGEST:
        fact = "this text is over 1 MB, too large for a pattern"
        return Analysis(source, None, (), (error(fact, Span(source, 0, 1)),))
    file, notes = read_partly(source)
    if file is None or notes:
        used, others = _used(file, directory) if file else ((), ())
        return Analysis(source, file, used, tuple(notes), others=others)
    try:
        texts = with_used(file, directory, _reading)
    except Problems as problems:
        return Analysis(source, file, (), problems.notes, Texts(file, (), directory))
    plan, said = _plan(texts)
    return Analysis(source, file, texts.templates, said, texts, plan, texts.others)


def _used(file: tree.File, directory: Path) -> tuple[tuple[tree.File, ...], Others]:
    try:
        texts = with_used(file, directory, _reading)
    except Problems:
        return (), ()
    return texts.templates, texts.others


def _reading(path: Path) -> tree.File:
    """A used file's tree, read again only when the file has changed: a keystroke must not wait for it."""
    try:
        return _read_once(path, path.stat().st_mtime_ns)
    except OSError:
        return read_used(path)


@lru_cache(maxsize=32)
def _read_once(path: Path, changed: int) -> tree.File:
    return read_used(path)


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
