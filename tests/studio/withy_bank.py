"""The small invented studio that publishes a variation of the Marlpit top under her own name."""

from __future__ import annotations

from pathlib import Path

MARK = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 120 60" width="120" height="60">
<g fill="none" stroke="#1d4f4b" stroke-width="3" stroke-linecap="round">
<path d="M8 54 C30 50 40 20 38 6"/><path d="M22 55 C44 50 56 28 58 8"/><path d="M38 56 C58 52 74 36 80 14"/></g>
<circle cx="98" cy="44" r="12" fill="#2f7d77"/>
</svg>
"""
STUDIO = """name      = "Withy Bank Patterns"
mark      = "withy.svg"
address   = ["4 Osier Lane", "Saltmarsh"]
link      = "https://withybank.example"
licence   = "Sew as many as you like for yourself, and up to twenty a year to sell."
terms     = ["The pattern is yours to print as often as you need it.", "Please send others to our shop."]
languages = ["en", "de"]
pages     = ["a4"]
cloth     = ["150 cm"]
pack      = ["pages", "booklet", "html"]

[colours]
headings  = "#1d4f4b"
lines     = "#2f7d77"
"""
GORSE = 'pattern gorse from "marlpit.piece"\n    title    "Gorse top"\n    version  "1.0"\n'


def withy_bank(folder: Path) -> Path:
    """Her folder: the studio's file, its mark, and one pattern."""
    for name, text in (("withy.svg", MARK), ("studio.toml", STUDIO), ("gorse.piece", GORSE)):
        (folder / name).write_text(text, encoding="utf-8")
    return folder
