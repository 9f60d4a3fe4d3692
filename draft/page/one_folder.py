"""plainseam as a folder that needs nothing installed: `python -m draft.page.one_folder --out DIR`.

It is built with the extra `folder`, on the system that it is for: on Linux, Windows and macOS by the same command. The
folder holds Python, the libraries, the patterns and the program `plainseam`, which a double click starts.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path

import lark

from draft.base.resources import folder

_DRAFT = Path(__file__).resolve().parents[1]
_WHOLE = ("uvicorn", "websockets", "pikepdf", "markdown_it")
"""Libraries that import parts of themselves by name."""
_LEFT_OUT = ("spyrrow", "scipy", "pytest", "mypy", "hypothesis", "ezdxf", "pandas", "matplotlib", "IPython", "tkinter")
_READ_ME = """plainseam

Open the page by a double click on {program}; your browser shows it. It is drawn on this machine alone, and ends a
minute after you have closed it. In a terminal the same file is the command: {program} --help
"""


def main() -> int:
    """Build the folder; gives the builder's exit code."""
    parser = argparse.ArgumentParser(prog="python -m draft.page.one_folder", description=__doc__)
    parser.add_argument("--out", type=Path, required=True, metavar="DIR", help="where `plainseam` comes to lie")
    out: Path = parser.parse_args().out.resolve()
    if find_spec("PyInstaller") is None:
        print("one_folder: the builder is not installed: pip install '.[folder]'", file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory() as place:
        begins = str(_DRAFT / "command" / "double_click.py")
        command = [sys.executable, "-m", "PyInstaller", *_words(out, Path(place)), begins]
        code = subprocess.run(command, check=False).returncode
    if code == 0:
        program = "plainseam.exe" if sys.platform == "win32" else "plainseam"
        (out / "plainseam" / "READ ME.txt").write_text(_READ_ME.format(program=program), "utf-8")
    return code


def _words(out: Path, place: Path) -> list[str]:
    """What the builder is told: all of ours by name, for verbs are imported late, and what is read beside it."""
    words = ["--noconfirm", "--onedir", "--name", "plainseam", "--log-level", "WARN", "--distpath", str(out)]
    words += ["--workpath", str(place / "work"), "--specpath", str(place), "--collect-submodules", "draft"]
    words += ["--copy-metadata", "plainseam", "--paths", str(_DRAFT.parent)]
    for library in _WHOLE:
        words += ["--collect-all", library]
    for library in _LEFT_OUT:
        words += ["--exclude-module", library]
    for source, name in ((_laid_out(place / "draft"), "draft"), (Path(lark.__file__).parent, "lark")):
        words += ["--add-data", f"{source}{os.pathsep}{name}"]
    return words


def _laid_out(place: Path) -> Path:
    """All files of the package in one folder, its sources too: trees are kept under their times and sizes."""
    shutil.copytree(_DRAFT, place, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("grammar", "pieces"):
        if not (place / "_bundled" / name).is_dir():
            shutil.copytree(folder(name), place / "_bundled" / name)
    return place


if __name__ == "__main__":
    sys.exit(main())
