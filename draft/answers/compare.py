"""Two drafts compared for the command: what is drafted, and how it is told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.csvtext import Row, csv_text
from draft.base.notes import Problems, Severity, error
from draft.base.output_names import file_names
from draft.base.record import dataclass
from draft.base.text_columns import in_columns
from draft.base.units import rounded
from draft.base.worst import worst_of
from draft.drafting.checked import draft_and_check
from draft.drafting.request import Request
from draft.garment.changes import SAME, Changes, changes
from draft.garment.garment import Garment
from draft.paper.drawing.svg import svg
from draft.paper.drawing.wording import Wording
from draft.paper.pictures.compared import compared_drawing


@dataclass(frozen=True)
class Compared:
    """Two drafts for as many bodies, and what is different between them."""

    old: Garment
    new: Garment
    names: tuple[str, str]
    changes: Changes


def compare(old: Request, new: Request) -> Compared:
    """Draft both, for the sizes that they share, and compare them. Raises `Problems` where either cannot be drafted."""
    first, second = _drafted(old), _drafted(new)
    if _all_sizes(old) and _all_sizes(new) and first.sizes != second.sizes:
        shared = tuple(size for size in second.sizes if size in first.sizes)
        if not shared:
            fix = "compare two sizes with `--between M,L`"
            raise Problems([error("the two patterns have no size in common", None, fix)])
        first, second = (_drafted(replace(each, whom=replace(each.whom, sizes=shared))) for each in (old, new))
    return Compared(first, second, (_said(old), _said(new)), changes(first, second))


def _all_sizes(request: Request) -> bool:
    return request.whom.sizes is None and not request.whom.is_person


def _drafted(request: Request) -> Garment:
    drafted = draft_and_check(request)
    if not drafted.outcome.drafted.all():
        raise Problems(note for note in drafted.notes if note.severity is Severity.ERROR)
    return drafted.garment


def _said(request: Request) -> str:
    """What was asked for, in words."""
    body, sizes = request.whom.body, request.whom.sizes or ()
    whom = [str(body)] if body else [f"size {sizes[0]}"] if len(sizes) == 1 else []
    return ", ".join([request.pattern, *whom, *(f"{name}={value}" for name, value in request.styles.items())])


def compare_report(found: Compared) -> str:
    """Which edges have moved, and how far, over all bodies; and what only one draft has."""
    said = [f"old: {found.names[0]}", f"new: {found.names[1]}"]
    changed = found.changes.changed
    if changed:
        sizes = found.new.sizes
        rows: list[Sequence[str]] = [("edge", "moves mm", "was cm", "is cm", "longer by mm")]
        rows += [
            (
                f"{edge.piece}.{edge.edge}",
                _span(edge.moved, sizes, 1.0),
                _span(edge.before, sizes, 10.0),
                _span(edge.after, sizes, 10.0),
                _span(edge.longer, sizes, 1.0),
            )
            for edge in changed
        ]
        said += ["", in_columns(rows)]
    said += ["", *_summary(found.changes)]
    return "\n".join(said)


def _summary(found: Changes) -> list[str]:
    lines = [
        (f"{word}: {', '.join(f'`{name}`' for name in names)}")
        for word, names in (
            ("new pieces", found.new_pieces),
            ("pieces that are no longer there", found.missing_pieces),
            ("new edges", found.new_edges),
            ("edges that are no longer there", found.missing_edges),
        )
        if names
    ]
    for name, way in found.elsewhere:
        lines.append(f"`{name}` is drafted elsewhere, by up to {np.hypot(*way.T).max():.1f} mm; its shape is the same")
    same = len(found.edges) - len(found.changed)
    lines.append(f"{same} of {len(found.edges)} edges are as they were, within {SAME} mm")
    return lines


def _span(values: Floats, sizes: Sequence[str], unit: float) -> str:
    """The figures of all bodies: one, or the least and the greatest with whose they are."""
    low, high = worst_of(-values), worst_of(values)
    least, most = (rounded(float(values[k]) / unit, 1) for k in (low, high))
    return least if least == most else f"{least} ({sizes[low]}) to {most} ({sizes[high]})"


def compare_files(found: Compared) -> dict[str, bytes]:
    """`compare.csv`, and a drawing for each body: `compare.svg`, or `compare-M.svg` and so on."""
    return {"compare.csv": compare_table(found), **compare_pictures(found)}


def compare_table(found: Compared) -> bytes:
    """`compare.csv`: a row for each edge and body."""
    return csv_text(_rows(found))


def compare_pictures(found: Compared, said: Wording | None = None) -> dict[str, bytes]:
    """The drawings alone, in a maker's language and units where `said` gives them."""
    sizes, files = found.new.sizes, dict[str, bytes]()
    for body, name in enumerate(file_names(sizes)):
        drawing = compared_drawing(found.old, found.new, found.changes, body, _names(found, body, said), said)
        files["compare.svg" if len(sizes) == 1 else f"compare-{name}.svg"] = svg(drawing).encode()
    return files


def _names(found: Compared, body: int, said: Wording | None) -> tuple[str, str]:
    if len(found.new.sizes) == 1:
        return found.names
    if said:
        old, new = (said.sheet_title(name, [found.new.sizes[body]]) for name in found.names)
        return old, new
    old, new = (f"{name}, size {found.new.sizes[body]}" for name in found.names)
    return old, new


def _rows(found: Compared) -> Iterable[Row]:
    yield ("piece", "edge", "old size", "new size", "moves mm", "was mm", "is mm", "longer by mm")
    for edge in found.changes.edges:
        for k, (old, new) in enumerate(zip(found.old.sizes, found.new.sizes, strict=True)):
            figures = (edge.moved[k], edge.before[k], edge.after[k], edge.longer[k])
            yield (edge.piece, edge.edge, old, new, *(rounded(float(figure), 2) for figure in figures))
    for word, names in (("new", found.changes.new_edges), ("no longer there", found.changes.missing_edges)):
        yield from ((*name.split("."), word) for name in names)
    for word, names in (("new", found.changes.new_pieces), ("no longer there", found.changes.missing_pieces)):
        yield from ((name, "", word) for name in names)
