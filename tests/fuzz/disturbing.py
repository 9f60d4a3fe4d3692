"""What befalls a command from outside: a file that an earlier start has left is damaged, or a start is killed."""

from __future__ import annotations

import os
import random
import signal
import subprocess
from contextlib import suppress
from pathlib import Path

from draft.base.itself import started_as
from tests.fuzz.mangling import mangled_bytes

DAMAGED, KILLED = "damaged", "killed"


def disturb(words: tuple[str, ...], chance: random.Random) -> int:
    """Do what such words in the place of a command say. Gives 0."""
    if words[0] == DAMAGED:
        _damage(Path(words[1]), chance)
    else:
        _kill_after(float(words[1]), words[2:])
    return 0


def _damage(place: Path, chance: random.Random) -> None:
    """Change a file, or one of those in a folder; where there is none one is written."""
    files = sorted(file for file in place.rglob("*") if file.is_file()) if place.is_dir() else [place]
    file = chance.choice(files or [place / "odd"])
    data = file.read_bytes() if file.exists() else b"x"
    way = chance.random()
    if way < 0.2:
        file.unlink(missing_ok=True)
    elif way < 0.5:
        file.write_bytes(data[: chance.randrange(len(data) + 1)])
    elif file.parent.is_dir():
        file.write_bytes(mangled_bytes(data.decode("utf-8", "replace"), chance))


def _kill_after(seconds: float, words: tuple[str, ...]) -> None:
    """Start the command in a process of its own and kill it, with all that it started."""
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(
        started_as("draft", *words), stdin=quiet, stdout=quiet, stderr=quiet, start_new_session=True
    )
    with suppress(subprocess.TimeoutExpired):
        process.wait(seconds)
    with suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.wait()
