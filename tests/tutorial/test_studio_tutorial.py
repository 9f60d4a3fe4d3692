"""From a draft to your shop: the files and commands of the tutorial, as they stand there."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from draft.base.resources import folder
from draft.command.main import commands

TEXT = (folder("pieces") / "STUDIO.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^```(?P<kind>\w*) ?(?P<name>[\w.]*)\n(?P<text>.*?)^```$", re.M | re.S)


def _followed(place: Path, monkeypatch: pytest.MonkeyPatch, skipped: tuple[str, ...] = ()) -> list[str]:
    """What the commands say, in their order, each in the folder with the files that stand above it."""
    monkeypatch.chdir(place)
    said = []
    for block in BLOCK.finditer(TEXT):
        if block["name"]:
            (place / block["name"]).write_text(block["text"], encoding="utf-8")
        elif block["kind"] == "sh":
            words = shlex.split(block["text"])[1:]
            if words[0] not in skipped:
                ran = CliRunner().invoke(commands, words)
                assert ran.exit_code == 0, ran.output
                said.append(ran.output)
    return said


def test_its_files_are_read_and_what_testers_say_is_what_it_shows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (said,) = _followed(tmp_path, monkeypatch, skipped=("release", "pack"))
    shown = next(block["text"] for block in BLOCK.finditer(TEXT) if not block["kind"])
    for line in shown.splitlines():
        assert line.strip().removesuffix("...") in said


def test_every_key_of_a_studios_file_is_in_its_table() -> None:
    from draft.studio.studio import Studio

    keys = {name for name in Studio.__dataclass_fields__ if name not in ("file", "places")}
    assert {key for key in keys if f"`{key}`" not in TEXT and f"`[{key}]`" not in TEXT} == set()


@pytest.mark.slow
def test_it_leads_to_version_one_point_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _followed(tmp_path, monkeypatch)
    published = tmp_path / "published"
    assert {path.name for path in published.iterdir()} == {"gorse-1.0", "gorse-1.0-testers", "gorse-1.1"}
    new = (published / "gorse-1.1" / "changes" / "changes-en.md").read_text("utf-8")
    assert "Closer at the waist, as testers asked." in new
    assert re.search(r"- Front: its outline moves by .* Print it again in XS – 3XL\.", new)
    assert "- As they were: Sleeve band and Neckband." in new
    names = re.findall(r"^\| `([^|]*)` \|", TEXT.partition("## 3.")[2], re.M)
    for name in [part for cell in names for part in cell.split("`, `")]:
        assert (published / "gorse-1.0" / name).exists(), name
