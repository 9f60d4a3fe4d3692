"""The command `plainseam` itself: each file of this room adds its verbs to this group."""

from __future__ import annotations

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


class Verbs(click.Group):
    """A group whose help lists its verbs by who uses them, each with its whole first sentence."""

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
