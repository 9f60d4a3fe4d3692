"""The verbs about piece files as texts: tidying them, looking up their words, writing them in an editor."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from draft.base.notes import Note, Problems, error
from draft.command.console import heard, print_bytes, print_text
from draft.command.group import commands
from draft.command.options import PLACE
from draft.command.told_as_data import AS_JSON, tell

STANDARD = "-"


@commands.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--check", is_flag=True, help="Change nothing: list the files that are not tidy, and exit with 1.")
def tidy(files: tuple[str, ...], check: bool) -> None:
    """Lay piece files out in one way.

    Indents, columns, spaces and empty lines are set; what a file says stays the same. `-` reads a text and
    writes it back tidied. A file that cannot be read is left alone.
    """
    notes: list[Note] = []
    changed = []
    for name in files:
        try:
            changed += [name] if _tidied(name, check) else []
        except Problems as problems:
            notes += problems.notes
    for name in changed:
        if check or name != STANDARD:
            print_text(f"{name} is not tidy" if check else f"tidied {name}")
    if notes:
        raise Problems(notes)
    if check and changed:
        raise SystemExit(1)


def _tidied(name: str, check: bool) -> bool:
    """Whether a file or the standard input was not tidy; it is laid out anew unless it is only to be checked."""
    from draft.base.textfile import LARGEST
    from draft.language.tidying import tidy_file, tidy_text

    if name != STANDARD:
        return tidy_file(Path(name), check)
    after, differs = tidy_text(heard(LARGEST + 1), "standard input")
    if not check:
        print_bytes(after)
    return differs


@commands.command()
@click.argument("words", nargs=-1, metavar="[WORD]")
@click.option("--page", type=PLACE, metavar="FILE", help="Write the whole reference as Markdown.")
@AS_JSON
def words(words: tuple[str, ...], page: Path | None) -> None:
    """List the words of the language, or explain one."""
    from draft.base.output import replace_file
    from draft.reference.page import words_page
    from draft.reference.screen import word_report, words_report
    from draft.reference.words_data import words_data

    if page:
        replace_file(page, words_page().encode())
        print_text(f"wrote {page}")
    else:
        print_text(word_report(" ".join(words)) if words else words_report())
        tell(lambda: words_data(" ".join(words)))


@commands.command()
def editor() -> None:
    """Answer an editor about piece files.

    Speaks the Language Server Protocol over standard input and output.
    """
    from importlib.util import find_spec

    if find_spec("pygls") is None:
        fact = "helping an editor needs the library pygls, which is not installed"
        raise Problems([error(fact, None, "run `pip install 'plainseam[editor]'`")])
    if sys.stdin is None or sys.stdout is None:
        raise Problems([error("an editor is answered over standard input and output, one of which is closed")])
    from draft.editor.speaking import make_server

    make_server().start_io()
