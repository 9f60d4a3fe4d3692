"""The verbs of a studio that publishes: a version released."""

from __future__ import annotations

from pathlib import Path

import click

from draft.command.console import print_notes, print_text, progress
from draft.command.group import commands
from draft.command.options import OUT, PATTERN


@commands.command()
@PATTERN
@OUT
@click.option("--language", "languages", metavar="CODES", help="In these languages, such as en,de; else the studio's.")
@click.option("--page", "pages", metavar="SIZES", help="Paper of a printer at home; else the studio's.")
@click.option("--paper", "large", metavar="SIZES", help="Large paper as well; else the studio's.")
def release(pattern: str, folder: Path, languages: str | None, pages: str | None, large: str | None) -> None:
    """Make all that a version of a pattern is published with: packs, a listing, what is new, archives, checksums.

    It stands in a folder of its own, such as DIR/gorse-1.1, which is never written over; the inputs lie in it.
    """
    from draft.pack.paper_request import names_in
    from draft.release.releasing import Asked
    from draft.release.releasing import release as made_of

    said = [None if text is None else names_in(text) for text in (languages, pages, large)]
    asked = Asked(said[0], said[1], said[2])
    say = progress()
    found = made_of(pattern, folder, asked, say)
    say("")
    print_notes(found.notes)
    if not found.made:
        print_text(f"{found.folder} is there already, of the same inputs: nothing was made")
        return
    print_text(f"wrote {len(found.files)} files to {found.folder}")
    if found.since:
        print_text(f"what has changed since {found.since.name} stands in {found.folder}/changes")
