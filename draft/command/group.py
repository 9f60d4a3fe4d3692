"""The command `plainseam` itself: each file of this room adds its verbs to this group."""

from __future__ import annotations

import click

from draft import __version__


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, package_name="plainseam")
def commands() -> None:
    """Draft sewing patterns from one plain text, for every size of a chart or for one person.

    PATTERN is the name of a bundled pattern, such as marlpit, or the path of a .piece file.
    """
