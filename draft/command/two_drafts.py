"""The verb about two drafts: comparing versions of a pattern, sizes, people or styles."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict, Unpack

import click

from draft.command.console import print_text, write
from draft.command.group import commands
from draft.command.options import PLACE, all_of, out, style, styles_of
from draft.command.told_as_data import AS_JSON, tell
from draft.drafting.request import Request, Whom, sizes_in


class Two(TypedDict):
    """What is compared with what, as it was typed."""

    old: str
    new: str | None
    sizes: str | None
    between: str | None
    old_body: Path | None
    new_body: Path | None
    styles: tuple[str, ...]
    new_styles: tuple[str, ...]


compare_options = all_of(
    click.argument("old"),
    click.argument("new", required=False),
    click.option("--sizes", metavar="M,L", help="Compare two versions in these sizes only."),
    click.option("--between", metavar="M,L", help="Compare these two sizes."),
    click.option("--old-body", type=PLACE, metavar="FILE", help="Whom the old one is drafted for, in TOML."),
    click.option("--new-body", type=PLACE, metavar="FILE", help="Whom the new one is drafted for."),
    style("A style of both; may be repeated."),
    click.option("--new-style", "new_styles", multiple=True, metavar="NAME=VALUE", help="A style of the new one only."),
)


@commands.command()
@compare_options
@out("Write the table and drawings there as well.")
@AS_JSON
def compare(folder: Path | None, **given: Unpack[Two]) -> None:
    """Compare two versions of a pattern, OLD and NEW, edge by edge: which have moved, and how far.

    With one pattern, two sizes are compared with `--between M,L`, two people with `--old-body` and `--new-body`, two
    styles with `--new-style neckline=boat`.
    """
    from draft.answers.compare import compare as compare_drafts
    from draft.answers.compare import compare_files, compare_report
    from draft.answers.tried_data import compare_data

    found = compare_drafts(*_two(given))
    print_text(compare_report(found))
    tell(lambda: compare_data(found))
    if folder:
        write(folder, compare_files(found))


def _two(given: Two) -> tuple[Request, Request]:
    old, new = _whom(given)
    styles = styles_of(given["styles"])
    return (
        Request(given["old"], old, styles),
        Request(given["new"] or given["old"], new, styles | styles_of(given["new_styles"])),
    )


def _whom(given: Two) -> tuple[Whom, Whom]:
    old_body, new_body, between = given["old_body"], given["new_body"], sizes_in(given["between"])
    if not (given["new"] or between or new_body or given["new_styles"]):
        fix = "another pattern, `--between M,L`, `--new-body FILE` or `--new-style NAME=VALUE`"
        raise click.UsageError(f"there is nothing to compare with: give {fix}")
    if between is not None and (len(between) != 2 or given["sizes"] or old_body or new_body):
        raise click.UsageError("`--between` takes two sizes, and neither other sizes nor bodies beside them")
    if bool(old_body) != bool(new_body) or (old_body and given["sizes"]):
        raise click.UsageError("`--old-body` and `--new-body` go together, without sizes")
    if between:
        old, new = between
        return Whom(sizes=(old,)), Whom(sizes=(new,))
    sizes = sizes_in(given["sizes"])
    return Whom(old_body, sizes=sizes), Whom(new_body, sizes=sizes)
