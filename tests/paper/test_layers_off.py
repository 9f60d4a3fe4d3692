"""Sizes that are switched off are not drawn: by each viewer that this machine has.

The same pages without the drawings of these sizes, in the same viewer, are what it has to show. `pymupdf` is asked
where it is installed, and pdf.js where `NODE_PATH` names a folder with `pdfjs-dist` and `@napi-rs/canvas`.
"""

from __future__ import annotations

import importlib
import io
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image

from draft.paper.pages.paged_sheet import paged_pdf
from tests.paper.patterns import on_paper

pytestmark = pytest.mark.slow
KEPT = "M"
DOTS = 50
PAGE = 5
"""A page, counted from 1, that lines of all sizes cross."""
_SCRIPT = """
import fs from 'fs'; import path from 'path'; import {createRequire} from 'module'; import {pathToFileURL} from 'url'
const at = process.env.NODE_PATH, need = createRequire(path.join(at, 'none.js'))
const {createCanvas, DOMMatrix, ImageData, Path2D} = need('@napi-rs/canvas')
Object.assign(globalThis, {DOMMatrix, ImageData, Path2D})
const js = await import(pathToFileURL(path.join(at, 'pdfjs-dist/legacy/build/pdf.mjs')))
const [file, number, dots, out] = process.argv.slice(2)
const data = new Uint8Array(fs.readFileSync(file))
const page = await (await js.getDocument({data, verbosity: 0}).promise).getPage(Number(number))
const viewport = page.getViewport({scale: Number(dots) / 72})
const canvas = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height))
await page.render({canvasContext: canvas.getContext('2d'), viewport, background: 'white'}).promise
fs.writeFileSync(out, canvas.toBuffer('image/png'))
"""

Viewer = Callable[[Path, Path], Path]


def _called(*words: str) -> None:
    subprocess.run(words, check=True, capture_output=True, timeout=120)


def poppler(file: Path, out: Path) -> Path:
    _called("pdftoppm", "-r", str(DOTS), "-f", str(PAGE), "-l", str(PAGE), "-singlefile", "-png", str(file), str(out))
    return out.with_name(f"{out.name}.png")


def ghostscript(file: Path, out: Path) -> Path:
    pages = f"-dFirstPage={PAGE}", f"-dLastPage={PAGE}"
    _called(
        "gs", "-q", "-dBATCH", "-dNOPAUSE", "-sDEVICE=png16m", f"-r{DOTS}", *pages, f"-sOutputFile={out}", str(file)
    )
    return out


def pdfium(file: Path, out: Path) -> Path:
    page = importlib.import_module("pypdfium2").PdfDocument(file)[PAGE - 1]
    page.render(scale=DOTS / 72).to_pil().save(out, "png")
    return out


def mupdf(file: Path, out: Path) -> Path:
    page = importlib.import_module("pymupdf").open(file)[PAGE - 1]
    page.get_pixmap(dpi=DOTS).pil_save(str(out), format="png")
    return out


def pdf_js(file: Path, out: Path) -> Path:
    script = out.with_name("page.mjs")
    script.write_text(_SCRIPT)
    _called("node", str(script), str(file), str(PAGE), str(DOTS), str(out))
    return out


def _there(viewer: Viewer) -> bool:
    needed = {poppler: "pdftoppm", ghostscript: "gs", pdf_js: "node"}.get(viewer)
    if viewer is pdf_js and not (Path(os.environ.get("NODE_PATH", "none")) / "pdfjs-dist").is_dir():
        return False
    module = {pdfium: "pypdfium2", mupdf: "pymupdf"}.get(viewer)
    return bool(shutil.which(needed)) if needed else importlib.util.find_spec(module or "") is not None


@pytest.mark.parametrize("viewer", [poppler, pdfium, mupdf, ghostscript, pdf_js])
def test_a_viewer_leaves_out_sizes_that_are_off(viewer: Viewer, tmp_path: Path) -> None:
    if not _there(viewer):
        pytest.skip(f"{viewer.__name__} is not on this machine")
    whole = paged_pdf(on_paper("tidemill", "letter"))
    shown = {}
    for name, data in {"all": whole, "off": _switched_off(whole), "without": _without(whole)}.items():
        (tmp_path / f"{name}.pdf").write_bytes(data)
        picture = viewer(tmp_path / f"{name}.pdf", tmp_path / name)
        shown[name] = np.asarray(Image.open(picture).convert("L"), dtype=float)
    missed = np.abs(shown["off"] - shown["without"]).max()
    inked = {name: int((dots < 160).sum()) for name, dots in shown.items()}
    print(f"\n{viewer.__name__}: dots of ink {inked}, greatest difference {missed:.0f} of 255")
    assert inked["all"] > inked["without"] + 500 > 500 and missed == 0


def _switched_off(data: bytes) -> bytes:
    """The document with all sizes but one off as it opens."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        shown = pdf.Root.OCProperties.D
        groups = list(pdf.Root.OCProperties.OCGs)
        shown.ON = pikepdf.Array([one for one in groups if str(one.Name) == KEPT])
        shown.OFF = pikepdf.Array([one for one in groups if str(one.Name) != KEPT])
        return _saved(pdf)


def _without(data: bytes) -> bytes:
    """The document without what is drawn of all sizes but one."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            kept, inside = [], ""
            for words, operator in pikepdf.parse_content_stream(page):
                if str(operator) == "BDC" and str(words[0]) == "/OC":
                    inside = str(page.Resources.Properties[str(words[1])].Name)
                if str(operator) != "Do" or inside in ("", KEPT):
                    kept.append((words, operator))
                inside = "" if str(operator) == "EMC" else inside
            page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))
        return _saved(pdf)


def _saved(pdf: pikepdf.Pdf) -> bytes:
    file = io.BytesIO()
    pdf.save(file)
    return file.getvalue()
