"""The command `plainseam` itself: each file of this room adds its verbs to this group."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

import click

from draft import __version__

USERS = {
    "To make a garment": ("page", "shelf", "pack", "size", "fit", "sit", "lay", "measures", "figures"),
    "To design a pattern": (
        "new", "about", "draft", "walk", "true", "try", "compare", "study", "chart", "export", "envelope",
    ),
    "To sell": ("release", "testers", "orders", "cut", "cost"),
    "To write piece files": ("words", "tidy", "editor"),
}  # fmt: skip
"""Who uses a verb for what, as the help lists them."""


FILES = {
    "open_page": ("page",),
    "patterns": ("shelf", "pack", "about", "draft", "export"),
    "people": ("size", "fit", "measures", "figures", "study"),
    "sit_on_form": ("sit",),
    "cutting_table": ("lay",),
    "new_pattern": ("new",),
    "sewn_lines": ("walk", "true"),
    "try_ends": ("try",),
    "two_drafts": ("compare",),
    "size_charts": ("chart",),
    "envelopes": ("envelope",),
    "publishing": ("release", "testers"),
    "order_books": ("orders",),
    "costs": ("cut", "cost"),
    "piece_files": ("words", "tidy", "editor"),
}
"""The verbs that each file of this room adds: only that of the verb is read, so that no start waits for the rest."""
_FILE_OF = {verb: file for file, verbs in FILES.items() for verb in verbs}


class Verb(click.Command):
    """A verb that shows its usage above each error in how it was called, an option without its value too."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read what was typed after the verb; errors know which verb it was."""
        try:
            return super().parse_args(ctx, args)
        except click.UsageError as wrong:
            wrong.ctx = wrong.ctx or ctx
            raise


class Verbs(click.Group):
    """A group whose help lists its verbs by who uses them, each with its whole first sentence."""

    command_class = Verb

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of all verbs."""
        return sorted(_FILE_OF)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The verb of a name, from the file that it is in."""
        return self.verb(name)

    def verb(self, name: str) -> click.Command | None:
        """The same without a context."""
        if name in _FILE_OF and name not in self.commands:
            import_module(f"draft.command.{_FILE_OF[name]}")
        return self.commands.get(name)

    def every(self) -> Mapping[str, click.Command]:
        """All verbs by their names."""
        for name in _FILE_OF:
            self.verb(name)
        return self.commands

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the verbs under the headings of `USERS`."""
        for user, names in USERS.items():
            verbs = [(name, self.get_command(ctx, name)) for name in names]
            with formatter.section(user):
                formatter.write_dl([(name, verb.get_short_help_str(limit=200)) for name, verb in verbs if verb])


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, package_name="plainseam")
def commands() -> None:
    """Draft sewing patterns from one plain text, for every size of a chart or for one person.

    PATTERN is the name of a bundled pattern, such as marlpit, or the path of a .piece or .envelope file.
    """
