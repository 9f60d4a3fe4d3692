"""The options that several verbs share, and the request that they come to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypedDict

import click

from draft.base.units import Kind, QuantityError, read_quantity
from draft.drafting.request import Request, RequestError, Whom, sizes_in, styles_in

Command = Callable[..., None]
Option = Callable[[Command], Command]


class Given(TypedDict):
    """What `drafting_options` hand to a verb, as it was typed."""

    pattern: str
    sizes: str | None
    body: Path | None
    chart: Path | None
    like: str | None
    answers: tuple[str, ...]
    figure: str | None
    fabric: str | None
    unwashed: bool
    allowance: str | None
    styles: tuple[str, ...]


_WIDEST = 50.0
"""Seams are cut 1 to 4 cm wide, the widest to be let out (common practice)."""
PLACE = click.Path(path_type=Path)
PATTERN = click.argument("pattern")
FABRIC = click.option(
    "--fabric", metavar="FILE", help="A TOML file, or stable, moderate, stretchy, very_stretchy, rib."
)
OUT = click.option("--out", "folder", required=True, type=PLACE, metavar="DIR", help="The folder to write into.")


def out(words: str) -> Option:
    """A folder that may be left out."""
    return click.option("--out", "folder", type=PLACE, metavar="DIR", help=words)


def chart(words: str) -> Option:
    """A chart in place of the pattern's own: a file, or the name of one beside it."""
    return click.option("--chart", type=PLACE, metavar="CHART", help=words)


def style(words: str = "Choose a style; may be repeated.") -> Option:
    """Styles, any number of them."""
    return click.option("--style", "styles", multiple=True, metavar="NAME=VALUE", help=words)


DETAILS = click.option(
    "--details", is_flag=True, help="Also list what was estimated, and what was chosen for each body."
)


def all_of(*options: Option) -> Option:
    """Several options as one decorator, in the order in which the help lists them."""

    def add(function: Command) -> Command:
        for option in reversed(options):
            function = option(function)
        return function

    return add


_FOR_WHOM = all_of(
    click.option("--sizes", metavar="M,L", help="Only these sizes of the chart."),
    click.option("--body", type=PLACE, metavar="FILE", help="One person's measures in TOML: made to measure."),
    chart("Another size chart than the pattern's own."),
    click.option("--like", metavar='"bust M, hip XL"', help="One person between the sizes of the chart."),
    click.option("--measure", "answers", multiple=True, metavar="NAME=VALUE", help="One person's measure; repeat it."),
    click.option(
        "--figure", metavar='"bust D, sway back"', help="What is seen of one person's figure, for what is not measured."
    ),
    FABRIC,
    click.option("--unwashed", is_flag=True, help="Draft what washing takes from the fabric into the pieces."),
    click.option("--allowance", metavar="WIDTH", help="Your own outside all seams, hems excepted: 1cm, 5/8in or none."),
    style(),
)


def drafting_options_of(pattern: Option) -> Option:
    """A pattern, for whom it is drafted, and of which cloth."""
    return all_of(pattern, _FOR_WHOM)


drafting_options = drafting_options_of(PATTERN)
"""The pattern, for whom it is drafted, and of which cloth."""


def person_or_sizes(whom: Whom) -> None:
    """Raises UsageError where both are asked for, or a person in two ways."""
    person = {"--body": whom.body, "--like": whom.like, "--measure": whom.answers}
    if whom.is_person and whom.sizes is not None:
        first = next(option for option, given in person.items() if given)
        raise click.UsageError(f"`{first}` drafts one person, so it does not go with `--sizes`")
    if whom.figure is not None and not whom.is_person:
        raise click.UsageError("`--figure` is about one person: give `--body`, `--like` or `--measure` as well")
    if whom.body and (whom.chart or whom.like):
        raise click.UsageError("`--body` drafts one person, so it goes with neither `--chart` nor `--like`")


def request_of(given: Given, rule: Callable[[Whom], None] = person_or_sizes) -> Request:
    """What the options ask for; `rule` raises UsageError for what does not go together."""
    sizes = sizes_in(given["sizes"])
    whom = Whom(given["body"], given["chart"], sizes, given["like"], given["answers"], given["figure"])
    rule(whom)
    return Request(
        given["pattern"], whom, styles_of(given["styles"]), given["fabric"], given["unwashed"], _own(given["allowance"])
    )


def _own(text: str | None) -> float | None:
    """The maker's own allowance in mm; None where nothing is said. Raises UsageError for what is none."""
    if text is None:
        return None
    own = 0.0 if text.strip().lower() == "none" else length_in(text, "--allowance")
    if own > _WIDEST:
        raise click.UsageError(f"`--allowance {text}` is wider than a seam is ever cut: 5 cm at most")
    return own


def styles_of(texts: Sequence[str]) -> dict[str, str]:
    """Styles from texts such as `sleeve_length=30cm`. Raises UsageError for any other."""
    try:
        return styles_in(texts)
    except RequestError as reason:
        raise click.UsageError(str(reason)) from None


def length_in(text: str, option: str, example: str = "4cm") -> float:
    """A length in mm. Raises UsageError for anything else."""
    try:
        found = read_quantity(text.strip())
    except QuantityError as reason:
        raise click.UsageError(f"`{option}`: {reason}") from None
    if found.kind is not Kind.LENGTH or not found.value > 0:
        raise click.UsageError(f"`{option} {text}` is not a length, as in `{option} {example}`")
    return found.value
