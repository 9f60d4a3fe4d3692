"""The options that say for whom a pattern is drafted, and how."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypedDict

import click

Command = Callable[..., None]


class Choices(TypedDict):
    """For whom a pattern is drafted, as the command line gives it."""

    sizes: str | None
    body: Path | None
    chart: Path | None
    like: str | None
    answers: tuple[str, ...]
    fabric: str | None
    unwashed: bool
    styles: tuple[str, ...]


_FILE = click.Path(path_type=Path)
ARGUMENT = click.argument("pattern")
STYLE = click.option("--style", "styles", multiple=True, metavar="NAME=VALUE", help="Choose a style; may be repeated.")
_OPTIONS = (
    ARGUMENT,
    click.option("--sizes", metavar="M,L", help="Only these sizes of the chart."),
    click.option("--body", type=_FILE, metavar="FILE", help="One person's measures in TOML: made to measure."),
    click.option("--chart", type=_FILE, metavar="FILE", help="Another size chart than the pattern's own."),
    click.option("--like", metavar='"bust M, hip XL"', help="One person between the sizes of the chart."),
    click.option("--measure", "answers", multiple=True, metavar="NAME=VALUE", help="One person's measure; repeat it."),
    click.option("--fabric", metavar="FILE", help="A TOML file, or stable, moderate, stretchy, very_stretchy, rib."),
    click.option("--unwashed", is_flag=True, help="Draft what washing takes from the fabric into the pieces."),
    STYLE,
)
OutOption = click.option(
    "--out", "folder", required=True, type=click.Path(path_type=Path), metavar="DIR", help="The folder to write into."
)


def drafting_options(function: Command) -> Command:
    """The pattern, and for whom it is drafted."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


def styles_of(given: tuple[str, ...]) -> dict[str, str]:
    """Styles from texts such as `sleeve_length=30cm`. Raises UsageError for any other."""
    styles = {}
    for choice in given:
        name, equals, value = choice.partition("=")
        if not equals or not name.strip() or not value.strip():
            raise click.UsageError(f"`--style {choice}` is not NAME=VALUE, as in `--style sleeve_length=30cm`")
        if name.strip() in styles:
            raise click.UsageError(f"`--style {name.strip()}=...` is given twice: take one of the two out")
        styles[name.strip()] = value.strip()
    return styles
