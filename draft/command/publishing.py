"""The verbs of a studio that publishes: a version released, and what those who tried it say."""

from __future__ import annotations

from pathlib import Path

import click

from draft.base.notes import Problems, error, stop_if_errors
from draft.command.console import print_notes, print_text, print_wrote, progress, write
from draft.command.group import commands
from draft.command.options import OUT, PATTERN, PLACE, out
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Request


@commands.command()
@PATTERN
@OUT
@click.option("--language", "languages", metavar="CODES", help="In these languages, such as en,de; else the studio's.")
@click.option("--page", "pages", metavar="SIZES", help="Paper of a printer at home; else the studio's.")
@click.option("--paper", "large", metavar="SIZES", help="Large paper as well; else the studio's.")
@click.option("--testers", is_flag=True, help="For those who try it: a sheet to fill in for each size, and no listing.")
@AS_JSON
def release(
    pattern: str,
    folder: Path,
    languages: str | None,
    pages: str | None,
    large: str | None,
    testers: bool,
) -> None:
    """Make all that a version of a pattern is published with: packs, a listing, what is new, archives, checksums.

    It stands in a folder of its own, such as DIR/gorse-1.1, which is never written over; the inputs lie in it.
    """
    from draft.pack.paper_request import names_in
    from draft.release.releasing import Asked, released_data
    from draft.release.releasing import release as made_of

    said = [None if text is None else names_in(text) for text in (languages, pages, large)]
    asked = Asked(said[0], said[1], said[2], testers)
    say = progress()
    found = made_of(pattern, folder, asked, say)
    say("")
    print_notes(found.notes)
    tell(lambda: released_data(found))
    if not found.made:
        print_text(f"{found.folder} is there already, of the same inputs: nothing was made")
        return
    print_wrote(len(found.files), found.folder)
    if found.since:
        print_text(f"what has changed since {found.since.name} stands in {found.folder}/changes")


@commands.command()
@click.argument("replies", nargs=-1, required=True, type=PLACE)
@click.option("--pattern", required=True, metavar="PATTERN", help="The pattern that was tried, as it is now.")
@out("Write a table of what was felt there as well.")
@AS_JSON
def testers(replies: tuple[Path, ...], pattern: str, folder: Path | None) -> None:
    """Lay what testers reply over the draft: what they felt, on what they agree, which figures to look at.

    REPLIES are tables (CSV) and sheets that were filled in (PDF), or folders of them; both come with
    `release --testers`.
    """
    from draft.drafting.checked import draft_and_check
    from draft.release.feedback_questions import questions
    from draft.release.replies_laid import laid_over
    from draft.release.replies_read import of_other_versions, read_replies
    from draft.release.replies_told import replies_data, replies_files, replies_report, with_figures

    drafted = draft_and_check(Request(pattern))
    stop_if_errors(drafted.notes)
    asked = questions(drafted)
    found, notes = read_replies(replies, asked)
    notes += of_other_versions(found, drafted.plan.version)
    print_notes(notes)
    if not found:
        raise Problems([error("there is no reply in these files that could be counted")])
    told = with_figures(drafted, laid_over(found, asked, drafted))
    print_text(replies_report(told))
    tell(lambda: replies_data(told))
    if folder:
        write(folder, replies_files(told))
