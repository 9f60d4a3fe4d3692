"""What a version has changed, told to who has an older one: pieces, sizes, how far, and which pages to print again."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.garment.garment import Garment
from draft.paper.drawing.wording import Wording, capitalised
from draft.paper.pages.guide_parts import ranges
from draft.plan.plan import Plan
from draft.release.drafts_apart import TOLD, GarmentChange, PieceChange
from draft.release.pages_again import PagesAgain

_FINE = 16
"""Moves are told in sixteenths of an inch: in eighths most would be none."""


def notes_told(plan: Plan, wording: Wording) -> list[str]:
    """What the designer says of each version, in the order of her lines."""
    named = wording.named
    return [
        wording.say("release.notes", version=one.version, day=wording.date(one.day), words=named(one.words))
        for one in plan.changed
    ]


def changes_told(
    found: GarmentChange, old_version: str, drafts: tuple[Garment, Garment], pages: Sequence[PagesAgain], said: Wording
) -> list[str]:
    """A line for each piece and each paper; `drafts` are the garments before and now."""
    before, now = drafts
    lines = [_piece(one, found, now, said) for one in found.changed]
    lines += [said.say("release.new_piece", piece=said.title(now.piece(name))) for name in found.new]
    lines += [said.say("release.missing_piece", piece=said.title(before.piece(name))) for name in found.missing]
    if found.is_nothing:
        lines.append(said.say("release.nothing", old=old_version))
    elif found.same:
        same = said.listed([said.title(now.piece(name)) for name in found.same])
        lines.append(said.say("release.same", pieces=same))
    for key, sizes in (("new_sizes", found.new_sizes), ("missing_sizes", found.missing_sizes)):
        lines += [said.say(f"release.{key}", sizes=said.listed(sizes))] if sizes else []
    return [*lines, *(_pages(one, said) for one in pages if not found.is_nothing)]


def _piece(one: PieceChange, found: GarmentChange, garment: Garment, said: Wording) -> str:
    parts = [_outline(one, found, said) if kind == "outline" else said.say(f"release.{kind}") for kind in one.kinds]
    sizes = [size for size, far in zip(found.sizes, one.moved, strict=True) if one.kinds != ("outline",) or far >= TOLD]
    piece = said.title(garment.piece(one.piece))
    return said.say("release.piece", piece=piece, what=said.listed(parts), sizes=_ranges(sizes, found.sizes))


def _outline(one: PieceChange, found: GarmentChange, said: Wording) -> str:
    moved = np.where(one.moved >= TOLD, one.moved, np.nan)
    low, high = int(np.nanargmin(moved)), int(np.nanargmax(moved))
    least, far = (said.length(float(moved[k]), _FINE) for k in (low, high))
    if least == far:
        return said.say("release.outline", far=far)
    fields = {"least": least, "small": found.sizes[low], "far": far, "large": found.sizes[high]}
    return said.say("release.outline_range", **fields)


def _ranges(some: Sequence[str], sizes: Sequence[str]) -> str:
    """`XS – M, 2XL`: sizes that follow one another as one."""
    runs: list[list[int]] = []
    for at in [k for k, size in enumerate(sizes) if size in some]:
        if runs and runs[-1][-1] == at - 1:
            runs[-1].append(at)
        else:
            runs.append([at])
    return ", ".join(sizes[run[0]] if len(run) == 1 else f"{sizes[run[0]]} – {sizes[run[-1]]}" for run in runs)


def _pages(one: PagesAgain, said: Wording) -> str:
    paper = paper_name(one.paper)
    if one.numbers is None:
        return said.say("release.pages_all", paper=paper)
    if not one.numbers:
        return said.say("release.pages_none", paper=paper)
    key = "release.pages_one" if len(one.numbers) == 1 else "release.pages"
    return said.say(key, paper=paper, pages=ranges(one.numbers))


def paper_name(name: str) -> str:
    """`A4`, `Letter`, `210x297mm`."""
    return name.upper() if len(name) == 2 else name if name[:1].isdigit() else capitalised(name)
