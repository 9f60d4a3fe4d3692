"""A small studio to release with: two sizes and one language, so that a release takes seconds."""

from __future__ import annotations

from pathlib import Path

from tests.studio.withy_bank import STUDIO, withy_bank

HEAD = """pattern gorse from "marlpit.piece"
    title    "Gorse top"
    chart    "two.csv"
    version  "{version}"
{notes}"""
FIRST = '    changed  "1.0" on "2026-03-01" "First published."\n'
SECOND = '    changed  "1.1" on "2026-05-04" "More room in the sleeves."\n'
ROOMIER = '\nstyle\n    arm_ease  7 cm  from 1 cm to 12 cm  "least room round the upper arm"\n'


def publishing_studio(folder: Path) -> Path:
    """Her folder, with version 1.0 of one pattern in two sizes of the bundled chart."""
    folder.mkdir(parents=True, exist_ok=True)
    withy_bank(folder)
    short = STUDIO.replace('["en", "de"]', '["en"]').replace('["pages", "booklet", "html"]', '["pages", "html"]')
    (folder / "studio.toml").write_text(short, encoding="utf-8")
    rows = (Path(__file__).parents[2] / "pieces" / "women.csv").read_text("utf-8").splitlines()
    columns = [0, 1, *[k for k, name in enumerate(rows[0].split(",")) if name.strip() in ("M", "L")]]
    kept = [",".join(row.split(",")[k] for k in columns) for row in rows if row.strip()]
    (folder / "two.csv").write_text("\n".join(kept) + "\n", encoding="utf-8")
    return write_version(folder, "1.0", FIRST)


def write_version(folder: Path, version: str, notes: str, more: str = "") -> Path:
    """Another version of the pattern in the folder."""
    (folder / "gorse.piece").write_text(HEAD.format(version=version, notes=notes) + more, encoding="utf-8")
    return folder
