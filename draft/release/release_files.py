"""The files of a release, by their places in its folder: packs, listings, what is new, archives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property, partial

from draft.base.notes import Note, caution
from draft.base.progress import Progress
from draft.base.zipped import zip_bytes
from draft.drafting.drafting import Drafted
from draft.pack.how_much_cloth import cloth_for
from draft.pack.pack import pack_files, printing_for
from draft.pack.paper_request import PaperRequest
from draft.paper.booklet import BookletFacts, ClothPlan
from draft.paper.drawing.wording import Wording
from draft.paper.pages.sheet import drafted_bodies
from draft.release.feedback_sheet import feedback_files
from draft.release.listing import listing_text
from draft.release.listing_pictures import picture_files
from draft.release.release_record import ReleaseRecord
from draft.release.since_then import Since, drawn_since, told_since

NO_PIXELS = (
    "pictures of the listing are there as SVG alone: PNG is drawn by the cairo library, which this machine lacks"
)


class ReleaseFiles:
    """Makes the files of one release for the sizes of one chart; `papers` has a request for each language.

    Those of a chart that is not the usual one have its name in their places.
    """

    def __init__(
        self, drafted: Drafted, papers: Sequence[PaperRequest], record: ReleaseRecord, say: Progress, chart: str = ""
    ) -> None:
        self.drafted, self.papers, self.progress = drafted, papers, say
        self.chart = f"-{chart}" if chart else ""
        self.name, self.testers = f"{record.folder}{self.chart}", record.testers
        self.notes: list[Note] = []

    def all(self, since: Since | None) -> dict[str, bytes]:
        """All of them; of every language an archive of what is sold, with what is new."""
        files, spoken = dict[str, bytes](), dict[str, Wording]()
        for paper in self.papers:
            code = paper.language
            pack = pack_files(self.drafted, paper, partial(self._done, code), None, self._warn)
            facts = self._facts(paper)
            spoken[code] = facts.wording
            told = told_since(facts.drafted.plan, facts.title, since, facts.wording)
            new = {f"changes-{code}.md": told.encode()} if told else {}
            self.progress(f"{code}: {'sheets' if self.testers else 'listing'}")
            sheets = feedback_files(facts) if self.testers else {}
            shown = {} if self.testers else self._listing(facts, pack)
            there = f"{code}{self.chart}"
            files |= _in(f"packs/{there}", pack) | _in(f"changes{self.chart}", new)
            files |= _in(f"feedback/{there}", sheets) | _in(f"listing/{there}", shown)
            held = pack | new | _in("feedback", sheets)
            files[f"{self.name}-{code}.zip"] = zip_bytes(_in(f"{self.name}-{code}", held))
        title, version = self.drafted.garment.title, self.drafted.plan.version
        return files | _in(f"changes{self.chart}", drawn_since(since, title, version, spoken))

    def _listing(self, facts: BookletFacts, pack: Mapping[str, bytes]) -> dict[str, bytes]:
        pictures, pixels = picture_files(facts)
        if not pixels:
            self._warn(caution(NO_PIXELS, None, "install it: `apt install libcairo2`, or `brew install cairo`"))
        text = listing_text(facts, pack, pictures, [paper.language for paper in self.papers])
        return {"listing.md": text.encode(), **pictures}

    def _facts(self, paper: PaperRequest) -> BookletFacts:
        printing, _ = printing_for(self.drafted, paper)
        bodies = tuple(drafted_bodies(self.drafted.to_cut))
        return BookletFacts(self.drafted, bodies, printing.wording, (), self._cloth, printing.imprint.face)

    @cached_property
    def _cloth(self) -> ClothPlan | None:
        """How much cloth is needed: the same in every language."""
        printing, _ = printing_for(self.drafted, self.papers[0])
        return cloth_for(self.drafted, self.papers[0], printing.wording)

    def _done(self, code: str, name: str) -> None:
        self.progress(f"{code}: {name}")

    def _warn(self, note: Note) -> None:
        if note not in self.notes:
            self.notes.append(note)


def _in(folder: str, files: Mapping[str, bytes]) -> dict[str, bytes]:
    return {f"{folder}/{name}": data for name, data in files.items()}
