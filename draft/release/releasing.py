"""A release made: all of it from one envelope of its inputs, beside the place where it belongs, then moved there."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path

from draft import __version__
from draft.base.alone import workplace
from draft.base.as_data import Data
from draft.base.disk import is_folder
from draft.base.envelope import Envelope
from draft.base.naming import and_list
from draft.base.notes import Note, Problems, error, stop_if_errors
from draft.base.opening import words_of
from draft.base.output import write_new_folder
from draft.base.progress import Progress
from draft.base.record import dataclass
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.drafting.request import Request, Whom
from draft.pack.pack import printing_for
from draft.pack.paper_request import PaperRequest
from draft.pack.printed_files import stop_unless_known
from draft.pack.studio_paper import studio_paper
from draft.release.release_files import ReleaseFiles
from draft.release.release_record import (
    RECORD,
    SOURCE,
    SUMS,
    ReleaseRecord,
    plain_version,
    read_record,
    released_before,
    sums,
    unlike,
)
from draft.release.since_then import since_then
from draft.release.untranslated import untranslated
from draft.sharing.enclosed import enclosed, sealed


@dataclass(frozen=True)
class Asked:
    """How a release is asked for: None stands for what the studio says."""

    languages: tuple[str, ...] | None = None
    pages: tuple[str, ...] | None = None
    large: tuple[str, ...] | None = None
    testers: bool = False


@dataclass(frozen=True)
class Released:
    """A release in its folder; `made` is false where it was there already. `since` is the folder of the last one."""

    folder: Path
    made: bool
    files: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    since: Path | None = None


def release(pattern: str, place: Path, asked: Asked, progress: Progress | None = None) -> Released:
    """Make the release of a pattern in its version, in a new folder at `place`.

    The inputs are read once, at the beginning. Raises `Problems` for mistakes in them, a pattern without a version or
    without its note, a version that is released already of other inputs, and a folder that cannot be written.
    """
    envelope = enclosed(pattern)
    with _beside(place) as beside:
        file = beside / f"{Path(envelope.opens).stem}.envelope"
        file.write_bytes(sealed(envelope))
        drafted = draft_and_check(Request(str(file)), whole=True)
        stop_if_errors(drafted.notes)
        papers = _papers(drafted, asked)
        record = _record(drafted, envelope, papers, asked)
        folder = place / record.folder
        before = released_before(place, record.pattern, record.version)
        if there := _there_already(folder, record):
            return there
        _stop_without_note(drafted, before, asked.testers)
        files = {f"{SOURCE}/{file.name}": file.read_bytes()}
        notes = [*drafted.notes, *(note for paper in papers for note in untranslated(drafted, paper.language))]
        for chart, one in _of_charts(drafted).items():
            since, more = since_then(before, one, papers[0], chart) if before else (None, ())
            made = ReleaseFiles(one, papers, record, progress or (lambda words: None), chart)
            files |= made.all(since)
            notes += [note for note in (*more, *made.notes) if note not in notes]
        files = {RECORD: replace(record, since=before.name if before else "").data, **files}
        write_new_folder(folder, {**files, SUMS: sums(files)})
    return Released(folder, True, (*files, SUMS), tuple(notes), before)


def released_data(found: Released) -> Data:
    """Where a release is and whether it was made now, for a program; its files stand in its own `SHA256SUMS`."""
    since = found.since.name if found.since else None
    return {"folder": str(found.folder), "made": found.made, "files": list(found.files), "since": since}


def _of_charts(drafted: Drafted) -> dict[str, Drafted]:
    """The garment in the sizes of each of its charts, the usual one first, by the charts' names."""
    assert drafted.planned
    found = {"": drafted}
    for name, _ in drafted.plan.charts[1:]:
        found[name] = draft_and_check(replace(drafted.planned.request, whom=Whom(chart=Path(name))), whole=True)
        stop_if_errors(found[name].notes)
    return found


@contextmanager
def _beside(place: Path) -> Iterator[Path]:
    """A workplace near a folder that need not be there. Raises `Problems` where none can be made."""
    existing = next((one for one in (place, *place.parents) if is_folder(one)), Path())
    try:
        with suppress(FileNotFoundError):
            place.lstat()  # a name that no file can have is told before anything is made
        with workplace(existing) as beside:
            yield beside
    except OSError as reason:
        fact = f"`{place}` cannot be written: {words_of(reason)}; nothing was changed"
        raise Problems([error(fact, None, "choose another place with `--out`, or make room there")]) from None


def _papers(drafted: Drafted, asked: Asked) -> list[PaperRequest]:
    """What is printed, a request a language. Raises `Problems` for languages and papers that there are none of."""
    studio = drafted.planned.studio if drafted.planned else None
    codes = asked.languages or (studio.languages if studio else ()) or ("en",)
    papers = [studio_paper(studio, code) for code in dict.fromkeys(codes)]
    papers = [
        replace(
            paper,
            pages=paper.pages if asked.pages is None else asked.pages,
            large=paper.large if asked.large is None else asked.large,
        )
        for paper in papers
    ]
    stop_unless_known(papers[0].pages, papers[0].large)
    for paper in papers:
        printing_for(drafted, paper)  # what cannot be said is told before an hour of drawing
    return papers


def _record(drafted: Drafted, envelope: Envelope, papers: list[PaperRequest], asked: Asked) -> ReleaseRecord:
    """What is to be said of it. Raises `Problems` for a pattern without a version that can name a folder."""
    plan = drafted.plan
    if not plan.version:
        fix = f'write `version "1.0"` below `pattern {plan.name}`'
        raise Problems([error(f"`{plan.name}` does not say which version it is, and a release is of one", None, fix)])
    if not plain_version(plan.version):
        fact = f"version `{plan.version}` cannot name a folder"
        raise Problems([error(fact, None, "write it in letters, digits, points and hyphens, such as `1.1`")])
    day = next((one.day for one in plan.changed if one.version == plan.version), "")
    wanted = {
        "languages": [paper.language for paper in papers],
        "pages": list(papers[0].pages),
        "large_papers": list(papers[0].large),
    }
    name = f"{Path(envelope.opens).stem}.envelope"
    return ReleaseRecord(
        plan.name, plan.version, day, f"plainseam {__version__}", wanted, envelope.digests, name, testers=asked.testers
    )


def _there_already(folder: Path, record: ReleaseRecord) -> Released | None:
    """The same release, where it was made before. Raises `Problems` where one of this version is of something else."""
    old = read_record(folder)
    if old is None:
        return None
    new_version = 'give this one another version, with a line `changed "..." on "..." "..."` for it'
    if old.inputs != record.inputs:
        names = sorted(
            name for name in {*old.inputs, *record.inputs} if old.inputs.get(name) != record.inputs.get(name)
        )
        differ = and_list([f"`{name}`" for name in names[:4]])
        fact = f"version {record.version} of `{record.pattern}` is released already, of other files: {differ}"
        raise Problems([error(f"{fact}; nothing is written over", None, new_version)])
    if dict(old.asked) != dict(record.asked):
        fact = (
            f"version {record.version} of `{record.pattern}` is released already, in other languages or on other paper"
        )
        fix = "ask for the same, or release into another folder with `--out`"
        raise Problems([error(f"{fact}; nothing is written over", None, fix)])
    if wrong := unlike(folder):
        fact = f"`{folder}` is there, but not as it was made: {and_list([f'`{name}`' for name in wrong[:4]])}"
        raise Problems([error(fact, None, "put that folder aside, and release again")])
    return Released(folder, made=False)


def _stop_without_note(drafted: Drafted, before: Path | None, testers: bool) -> None:
    """Who has an older version is to read what is new. Raises `Problems` where the pattern does not say it."""
    plan = drafted.plan
    if before and not testers and plan.version not in [one.version for one in plan.changed]:
        fact = f"`{plan.name}` does not say what version {plan.version} has changed since `{before.name}`"
        fix = f'write `changed "{plan.version}" on "2026-05-04" "..."` below `version`, with the day and your words'
        raise Problems([error(fact, None, fix)])
