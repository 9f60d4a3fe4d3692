"""What a name means in the file that it is written in, where some of that file was taken by its names.

Whatever else such a file declares comes along under a name that no one can write: `hip_ease of bodice`.
"""

from __future__ import annotations

from dataclasses import field

from draft.base.notes import Source, Span
from draft.base.record import dataclass
from draft.language import tree


@dataclass
class Scopes:
    """The names that are seen in files of which some was taken, and the files of templates that are used as a whole."""

    closed: dict[Source, dict[str, str]] = field(default_factory=dict)
    """For each file that sees nothing but its own: the names there, and what they are called in the pattern."""
    open: set[Source] = field(default_factory=set)
    """Files of templates that see the names of whoever uses them."""

    former: dict[str, tuple[frozenset[str], Source]] = field(default_factory=dict)
    """Options that a choice had before a file declared it again, by the choice, and that file."""

    def had(self, style: str, option: str, span: Span) -> bool:
        """Whether a choice had an option where something was written, though it has it no more."""
        options, again = self.former.get(style, (frozenset(), None))
        return option in options and span.source != again

    def called(self, written: tree.Node, name: str) -> str | None:
        """What a name that is written somewhere is called in the pattern; None where it is not seen."""
        seen = self.closed.get(written.span.source)
        return name if seen is None else seen.get(name)

    def is_closed(self, written: tree.Node) -> bool:
        """Whether something is written in a file that sees nothing but its own names."""
        return written.span.source in self.closed


def is_hidden(name: str) -> bool:
    """Whether a name of the pattern came along with another, unseen."""
    return " of " in name
