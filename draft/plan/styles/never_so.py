"""A `when` that no choice of the styles meets: the lines under it are never drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from math import prod

from draft.base.notes import Note, caution
from draft.language import tree
from draft.language.walking import nodes

MOST = 4096  # choices gone through for one `when`; beyond that it is left alone

Options = dict[str, tuple[str, ...]]
Chain = tuple[tree.Branch, ...]


def never_so(file: tree.File) -> list[Note]:
    """A caution on every `when` and `otherwise` of a file that no choice meets."""
    options: Options = {}
    for style in file.styles:
        if isinstance(style, tree.StyleChoice):
            options[style.name] = (*options.get(style.name, ()), *style.options)
    fix = "take these lines out, or ask for something else"
    found = {branch.span.start: branch for branch in _never(file, options)}
    return [caution("these lines are there for no choice of the styles", at.span, fix) for at in found.values()]


def _never(file: tree.File, options: Options) -> Iterator[tree.Branch]:
    seen: set[tuple[int, ...]] = set()
    for line in nodes(file):
        if not isinstance(line, tree.Line) or not line.branches:
            continue
        places = tuple(branch.span.start for branch in line.branches)
        if places not in seen:
            seen.add(places)
            first = next((k for k in range(len(places)) if _is_never(line.branches[: k + 1], options)), None)
            if first is not None:
                yield line.branches[first]


def _is_never(chain: Chain, options: Options) -> bool:
    parts = [part for branch in chain for part in branch.condition.parts]
    styles = sorted({part.style.text for part in parts})
    asked = [options.get(style, ()) for style in styles]
    known = all(set(part.options) <= set(options.get(part.style.text, ())) for part in parts)
    if not known or prod(map(len, asked)) > MOST:
        return False  # of an option or style that does not exist another note tells
    return not any(_met(chain, dict(zip(styles, chosen, strict=True))) for chosen in product(*asked))


def _met(chain: Chain, chosen: Mapping[str, str]) -> bool:
    return all(_holds(branch.condition, chosen) == branch.holds for branch in chain)


def _holds(condition: tree.Condition, chosen: Mapping[str, str]) -> bool:
    found = [(chosen[part.style.text] in part.options) != part.negated for part in condition.parts]
    return all(found) if condition.every else any(found)
