"""plainseam as a folder that needs nothing installed: `python -m draft.page.one_folder --out DIR`.

It is built with the extra `folder`, on the system that it is for: on Linux, Windows and macOS by the same command. The folder holds Python, the
libraries, the patterns and the program `plainseam`, which a double click starts.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path

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
    folder: Path = parser.parse_args().out.resolve()
    if find_spec("PyInstaller") is None:
        print("one_folder: the builder is not installed: pip install '.[folder]'", file=sys.stderr)
        return 1
    with tempfile.TemporaryDirectory() as place:
        command = [
            sys.executable,
            "-m",
            "PyInstaller",
            *_words(folder, Path(place)),
            str(_DRAFT / "page" / "double_click.py"),
        ]
        code = subprocess.run(command, check=False).returncode
    if code == 0:
        program = "plainseam.exe" if sys.platform == "win32" else "plainseam"
        (folder / "plainseam" / "READ ME.txt").write_text(_READ_ME.format(program=program), "utf-8")
    return code


def _words(folder: Path, place: Path) -> list[str]:
    """What the builder is told: all of ours by name, for verbs are imported late, and what is read beside it."""
    words = ["--noconfirm", "--onedir", "--name", "plainseam", "--log-level", "WARN", "--distpath", str(folder)]
    words += ["--workpath", str(place / "work"), "--specpath", str(place), "--collect-submodules", "draft"]
    words += ["--copy-metadata", "plainseam", "--paths", str(_DRAFT.parent)]
    for library in _WHOLE:
        words += ["--collect-all", library]
    for library in _LEFT_OUT:
        words += ["--exclude-module", library]
    for source, where in _beside():
        words += ["--add-data", f"{source}{os.pathsep}{where}"]
    return words


def _beside() -> list[tuple[Path, str]]:
    """Folders that are read while the program runs, and where each lies in the built one."""
    inside = ["page/static", "page/templates", "paper/languages", "paper/font"]
    found = [(_DRAFT / name, f"draft/{name}") for name in inside]
    bundled = _DRAFT / "_bundled"
    if bundled.is_dir():
        return [*found, (bundled, "draft/_bundled")]
    return [*found, *((_DRAFT.parent / name, f"draft/_bundled/{name}") for name in ("grammar", "pieces"))]


if __name__ == "__main__":
    sys.exit(main())
