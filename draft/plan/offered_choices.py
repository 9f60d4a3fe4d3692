"""Choices that a template is given: an option written down, or a choice of the pattern that offers the same."""

from __future__ import annotations

from collections.abc import Iterable

from draft.base.notes import Note, error, nearest
from draft.base.units import Kind
from draft.language import tree
from draft.plan.files.replacing import Settings


class Choosing:
    """Settles the inputs of templates that are choices; `settings` holds what each choice of the pattern is set to."""

    def __init__(self, settings: Settings, notes: list[Note]) -> None:
        self.settings = settings
        self.notes = notes

    def of(self, piece: tree.Piece, inputs: Iterable[tree.Input]) -> Settings:
        """What the choices of a piece's template are set to, entered under the piece's name too."""
        given = {line.name: line.value for line in piece.body.given}
        found: Settings = {}
        for wanted in inputs:
            if wanted.kind is Kind.CHOICE:
                chosen = self._chosen(wanted, given.get(wanted.name, wanted.default))
                found[wanted.name] = self.settings[f"{piece.name}.{wanted.name}"] = (chosen, wanted.options)
        return found

    def _chosen(self, wanted: tree.Input, said: tree.Expr | None) -> str:
        if said is None:
            return wanted.options[0]  # that it is missing is told where inputs are declared
        text = said.text if isinstance(said, tree.Ref) else said.span.text
        if text in wanted.options:
            return text
        chosen = self.settings.get(text, ("", ()))[0]
        if chosen in wanted.options:
            return chosen
        fact = f"`{wanted.name}` has no option `{chosen or text}`"
        hint = nearest(text, wanted.options) or (f"choose from {', '.join(wanted.options)}",)
        note = error(fact, said.span, *hint)
        self.notes += [note] if note not in self.notes else []
        return wanted.options[0]
