"""Will it fit on what is there? Each size asked for is laid on the stash, and the answer is said and drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from draft.base.disk import is_there
from draft.base.notes import Problems, error
from draft.base.output_names import OutputNames
from draft.cloth.bolt import Cloth, checked
from draft.cloth.cut_pieces import stop_if_too_many
from draft.cloth.effort import Effort
from draft.cloth.needs import ClothNeed, Size, stop_if_too_wide
from draft.cloth.remnant import (
    Remnant,
    StashFit,
    fits_length,
    fits_remnant,
    length_outline,
    read_outline,
    read_rectangle,
    side_by_side,
)
from draft.garment.garment import Garment
from draft.laying.lay_report import stash_report
from draft.laying.lay_sizes import picture_file, sizes_of
from draft.laying.picture import remnant_picture, together_picture


def stash(
    garment: Garment, have: Sequence[str], cloth: Cloth, effort: Effort, whole: Size | None = None
) -> tuple[dict[str, StashFit], list[str], dict[str, bytes]]:
    """An answer a size, those in words, and a drawing for each that fits; or one for several garments laid as one.

    `cloth` says how the stash shrinks and whether it has a direction. Raises Problems for what cannot be read as cloth.
    """
    found: dict[str, StashFit] = {}
    answers, files, names = [], {}, OutputNames()
    files_only = all(_is_file(each) for each in have)
    for size in (whole,) if whole else sizes_of(garment):
        answer, picture = on_stash(garment, size, have, cloth, effort)
        found[size.name] = answer
        answers.append(stash_report(size.name, answer, " and ".join(have), 0.0 if files_only else cloth.ends))
        if picture:
            files[f"cloth/stash-{names.of(size.name)}.svg"] = picture
    return found, answers, files


def on_stash(
    garment: Garment, size: Size, have: Sequence[str], cloth: Cloth, effort: Effort
) -> tuple[StashFit, bytes | None]:
    """Whether a size fits on the stash, and how it lies there. Raises Problems as `stash` does."""
    stop_if_too_many(size.cut_pieces)
    if len(have) == 1 and not _is_file(have[0]):
        return _on_length(garment, size, have[0], cloth, effort)
    return _on_remnant(garment, size, have, cloth, effort)


def _on_length(garment: Garment, size: Size, have: str, cloth: Cloth, effort: Effort) -> tuple[StashFit, bytes | None]:
    length, width = read_rectangle(have)
    own = checked(replace(cloth, width=width, selvedge=0.0))
    stop_if_too_wide(size.cut_pieces, [own])
    answer = fits_length(size.cut_pieces, own, length, effort)
    if not answer.fits or answer.lay is None:
        return answer, None
    need = ClothNeed(size.name, own, answer.lay, answer.lay.length)
    return answer, picture_file(together_picture(garment, need))


def _on_remnant(
    garment: Garment, size: Size, have: Sequence[str], cloth: Cloth, effort: Effort
) -> tuple[StashFit, bytes | None]:
    if cloth.repeats:
        fix = 'give one length, as in `--have "1.4 m x 148 cm"`, or leave `--repeat` out'
        raise Problems([error("stripes and checks are matched on one length of cloth only", None, fix)])
    remnant = _remnant(have, checked(cloth))
    answer = fits_remnant(size.cut_pieces, remnant, cloth.one_way, effort)
    picture = remnant_picture(garment, answer.lay, remnant) if answer.lay else None
    return answer, picture_file(picture) if picture else None


def _remnant(have: Sequence[str], cloth: Cloth) -> Remnant:
    """All of the stash, washed: outlines as they are, lengths without their ends."""
    washed = (1.0 - cloth.shrink_across, 1.0 - cloth.shrink_down)
    outlines = []
    for each in have:
        if _is_file(each):
            outlines.append(read_outline(Path(each)) * washed)
        else:
            length, width = read_rectangle(each)
            outlines.append(length_outline(max(cloth.left(length), 0.0), width * washed[0]))
    return side_by_side(outlines)


def _is_file(text: str) -> bool:
    """Whether what is given names a file: a length such as `1.4 m x 148 cm` has a point too."""
    return Path(text).suffix in (".txt", ".csv") or is_there(Path(text))
