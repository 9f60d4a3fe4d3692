"""Rebuild the carried font, its widths and nothing else, from the static OTF files of Inter (SIL OFL 1.1).

    python tests/paper/bake_font.py FOLDER

FOLDER holds `Inter-Regular.otf` and `Inter-Bold.otf` (Debian's package fonts-inter, 4.0~beta7). Needs fontTools,
which the program itself does not.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from fontTools import subset
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.scaleUpem import scale_upem
from fontTools.ttLib.tables._g_l_y_f import Glyph

FAMILY = "Plainseam Sans"
HERE = Path(__file__).resolve().parents[2] / "draft" / "paper" / "font"
TABULAR = 0xF630
"""The code of the digit 0 as wide as all others; `draft/paper/drawing/font.py` has the same."""
# Latin and its extensions, Greek, Cyrillic, punctuation, currency, fractions, arrows, operators used in words.
RANGES = (
    (0x20, 0x7E), (0xA0, 0x17F), (0x218, 0x21B), (0x386, 0x3CE), (0x400, 0x45F), (0x490, 0x491), (0x1E80, 0x1E85),
    (0x2010, 0x2015), (0x2018, 0x201E), (0x2020, 0x2022), (0x2026, 0x2026), (0x2032, 0x2033), (0x20AC, 0x20AC),
    (0x2150, 0x215E), (0x2190, 0x2199), (0x2212, 0x2212), (0x2248, 0x2248), (0x2264, 0x2265), (0x25CF, 0x25CF),
    (TABULAR, TABULAR + 9),
)  # fmt: skip


def bake(folder: Path) -> None:
    """Write both faces and `widths.json` beside the licence.

    It has the widths of characters in thousandths of an em, and the number of each one's glyph, the same in both faces.
    """
    widths: dict[str, object] = {}
    for style in ("Regular", "Bold"):
        font = TTFont(folder / f"Inter-{style}.otf")
        _give_tabular_digits(font)
        _subset(font)
        _rename(font, style)
        scale_upem(font, 1000)  # what every reader of PDF takes for granted
        font.save(HERE / f"PlainseamSans-{style}.otf")
        widths[style.lower()] = _widths(font)
        widths["glyphs"] = {chr(code): font.getGlyphID(name) for code, name in sorted(font.getBestCmap().items())}
    (HERE / "widths.json").write_text(json.dumps(widths, ensure_ascii=True, sort_keys=True, indent=0) + "\n")


def bake_blank() -> None:
    """Write the font of one glyph, a box an em wide, which is of nobody's making; no document ever inks it.

    It has an extent, for a reader passes over letters without one.
    """
    build = FontBuilder(1000, isTTF=True)
    names = [".notdef", "blank"]
    build.setupGlyphOrder(names)
    build.setupCharacterMap({0x20: "blank"})
    pen = TTGlyphPen(None)
    pen.moveTo((50, 0))
    for corner in ((50, 700), (950, 700), (950, 0)):
        pen.lineTo(corner)
    pen.closePath()
    build.setupGlyf({".notdef": Glyph(), "blank": pen.glyph()})
    build.setupHorizontalMetrics({".notdef": (1000, 0), "blank": (1000, 50)})
    build.setupHorizontalHeader(ascent=800, descent=-200)
    build.setupNameTable({"familyName": "Plainseam Unseen", "styleName": "Regular", "psName": "PlainseamUnseen"})
    build.setupOS2(sTypoAscender=800, sTypoDescender=-200)
    build.setupPost()
    build.font["head"].created = build.font["head"].modified = 0
    build.font.recalcTimestamp = False
    build.save(HERE / "PlainseamUnseen.ttf")


def _give_tabular_digits(font: TTFont) -> None:
    """Give the digits that are all as wide codes of a private area: nothing that reads the font needs its features."""
    alike: dict[str, str] = {}
    features, lookups = (getattr(font["GSUB"].table, name) for name in ("FeatureList", "LookupList"))
    for record in features.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for table in lookups.Lookup[index].SubTable:
                    alike |= getattr(table, "ExtSubTable", table).mapping
    named = font.getBestCmap()
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap |= {TABULAR + k: alike[named[ord("0") + k]] for k in range(10)}


def _subset(font: TTFont) -> None:
    options = subset.Options(layout_features=[], hinting=False, desubroutinize=False, notdef_outline=True)
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "DSIG", "meta"]
    options.name_IDs = [0, 7, 8, 9, 11, 12, 13, 14]
    worker = subset.Subsetter(options)
    worker.populate(unicodes=[code for first, last in RANGES for code in range(first, last + 1)])
    worker.subset(font)


def _rename(font: TTFont, style: str) -> None:
    names = {1: FAMILY, 2: style, 3: f"{FAMILY} {style} 1", 4: f"{FAMILY} {style}", 6: f"PlainseamSans-{style}"}
    for identity, text in names.items():
        font["name"].setName(text, identity, 3, 1, 0x409)
        font["name"].setName(text, identity, 1, 0, 0)
    cff = font["CFF "].cff
    cff.fontNames[0] = names[6]
    cff.topDictIndex[0].FamilyName = FAMILY
    cff.topDictIndex[0].FullName = names[4]
    font["head"].created = font["head"].modified  # a rebuilt file is the same file


def _widths(font: TTFont) -> dict[str, int]:
    scale, metrics = 1000 / font["head"].unitsPerEm, font["hmtx"].metrics
    return {chr(code): round(metrics[glyph][0] * scale) for code, glyph in sorted(font.getBestCmap().items())}


if __name__ == "__main__":
    bake(Path(sys.argv[1]))
    bake_blank()
