"""Whatever becomes of the standard streams, of a path or of a file, the command says one sentence and exits."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from draft.command import main as command
from tests.command.run import Runner

COMMAND = [sys.executable, "-m", "draft"]
POSIX = pytest.mark.skipif(os.name != "posix", reason="streams as a POSIX shell has them")
FULL = pytest.mark.skipif(not Path("/dev/full").exists(), reason="a system without a device that is full")


def shell(words: str) -> subprocess.CompletedProcess[str]:
    """What a shell makes of these words, in which `plainseam` is the command."""
    script = f'plainseam() {{ "{sys.executable}" -m draft "$@"; }}\n{words}'
    return subprocess.run(["bash", "-c", script], capture_output=True, encoding="utf-8", errors="replace")


@FULL
@pytest.mark.parametrize("words", ["measures", "--help", "about marlpit", "words"])
def test_an_answer_that_cannot_be_written_is_told(words: str) -> None:
    ran = shell(f"plainseam {words} > /dev/full")
    assert ran.returncode == 1
    assert ran.stderr == "error: what there is to say cannot be written to standard output: no space left on device\n"


@POSIX
def test_a_closed_output_is_told_and_files_are_written_all_the_same(tmp_path: Path) -> None:
    ran = shell("plainseam measures >&-")
    assert (ran.returncode, ran.stdout) == (1, "")
    assert ran.stderr == "error: what there is to say cannot be written to standard output: bad file descriptor\n"
    page = tmp_path / "words.md"
    assert shell(f"plainseam words --page '{page}' <&- 2>&- > /dev/null").returncode == 0
    assert page.read_text().startswith("#")


@POSIX
@pytest.mark.parametrize("closed", ["2>&-", "2> /dev/full", "<&- >&- 2>&-"])
def test_where_nobody_can_be_told_the_exit_code_says_it(closed: str) -> None:
    ran = shell(f"plainseam measures nonsense {closed}")
    assert (ran.returncode, ran.stderr) == (1, "")


@POSIX
def test_a_closed_input_is_told() -> None:
    assert "error: standard input is closed" in shell("plainseam tidy - <&-").stderr
    assert "standard input and output, one of which is closed" in shell("plainseam editor <&-").stderr


@POSIX
def test_a_reader_that_goes_away_is_no_mistake() -> None:
    ran = shell("plainseam measures | head -1; plainseam words | true")
    assert ran.stderr == "" and ran.stdout.startswith("measure ")


@POSIX
def test_a_terminal_that_lacks_a_letter_is_given_its_number(tmp_path: Path) -> None:
    ran = shell(f"PYTHONIOENCODING=latin-1 plainseam about '{tmp_path}/Łódź\u202e.piece'")
    assert "/\\u0141" in ran.stderr and "d\\u017a\\u202e.piece" in ran.stderr and "Traceback" not in ran.stderr
    ran = shell("plainseam about $'a\\xff\\e[31m.piece'")
    assert "a\\udcff\\x1b[31m.piece" in ran.stderr
    ran = shell("plainseam walk marlpit --style $'\\e[31m\\u202e'")
    assert ran.returncode == 2 and "\x1b" not in ran.stderr and "\u202e" not in ran.stderr


@pytest.mark.parametrize(
    ("reason", "said"),
    [
        (MemoryError(), "this takes more memory than there is\n  ask for fewer sizes at a time"),
        (RecursionError(), "something here is nested too deep to be followed"),
        (OSError(errno.EMFILE, "Too many open files", "/x"), "plainseam asked of it: too many open files (`/x`)"),
        (OSError("odd"), "plainseam asked of it: odd"),
    ],
)
def test_what_nothing_foresaw_is_told_in_a_sentence(
    run: Runner, monkeypatch: pytest.MonkeyPatch, reason: BaseException, said: str
) -> None:
    def fail(standalone_mode: bool) -> None:
        raise reason

    monkeypatch.setattr(command, "commands", fail)
    ran = run("about", "marlpit")
    assert ran.code == 1 and said in ran.err
    assert "report it to whoever gave you plainseam" in ran.err


@pytest.mark.parametrize("long", ["x" * 300, "x/" * 3000])
@pytest.mark.parametrize(
    "words",
    [
        ("about", "{}"), ("about", "{}.piece"), ("walk", "marlpit", "--body", "{}"), ("tidy", "{}"),
        ("walk", "marlpit", "--chart", "{}.csv"), ("walk", "marlpit", "--fabric", "{}"), ("measures", "--out", "{}"),
        ("walk", "marlpit", "--fabric", "{}.toml"), ("study", "marlpit", "{}.csv", "--out", "x"),
        ("lay", "marlpit", "--sizes", "M", "--have", "{}"), ("words", "--page", "{}"), ("compare", "marlpit", "{}"),
    ],
)  # fmt: skip
def test_a_name_too_long_for_the_disk_is_told(run: Runner, words: tuple[str, ...], long: str) -> None:
    ran = run(*(word.replace("{}", long) for word in words))
    assert ran.code == 1 and ran.err.count("error: ") == 1 and len(ran.err) < 700


@pytest.mark.parametrize(
    "setting", ['uses "{}.piece"', 'chart "{}.csv"', 'chart "women.csv"\nbooklet\n    picture "{}.svg"']
)
def test_a_name_too_long_for_the_disk_in_a_pattern_is_told(run: Runner, tmp_path: Path, setting: str) -> None:
    file = tmp_path / "a.piece"
    for length, said in ((280, "there is no file"), (400, "this text has 40")):
        block = setting.replace("{}", "x" * length)
        file.write_text(f"pattern a\n    {block}\n{SQUARE}")
        ran = run("walk", file)
        assert said in ran.err


SQUARE = """
body
    bust_girth
piece front
    points
        a at 0, 0
        b at 10 cm, 0
        c at bust_girth / 9, 8 cm
    outline
        low a to b straight
        side b to c straight
        top c to a straight
    cut 1
"""


@pytest.mark.parametrize("language", ["../en", "", "x" * 300, "en\0", "/etc/passwd", "xx"])
def test_a_language_that_is_none_is_told(run: Runner, tmp_path: Path, language: str) -> None:
    ran = run("pack", "marlpit", "--sizes", "M", "--language", language, "--out", tmp_path)
    assert ran.code == 1 and "error: there are no words in the language" in ran.err


@POSIX
@pytest.mark.parametrize("name", ["a.piece", "a.csv", "a.toml"])
def test_a_pipe_that_never_speaks_is_not_waited_for(run: Runner, tmp_path: Path, name: str) -> None:
    pipe = tmp_path / name
    os.mkfifo(pipe)
    for words in (
        ("about", pipe), ("walk", "marlpit", "--chart", pipe), ("walk", "marlpit", "--body", pipe), ("tidy", pipe),
        ("walk", "marlpit", "--fabric", pipe), ("study", "marlpit", pipe, "--out", tmp_path / "x"),
        ("lay", "marlpit", "--sizes", "M", "--have", pipe), ("about", "/dev/zero"),
    ):  # fmt: skip
        ran = run(*words)
        assert ran.code == 1 and "is a pipe or a device, not a file" in ran.err, words


@POSIX
def test_a_device_is_not_replaced_by_a_page(run: Runner, tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "is no file, so nothing is written there" in run("words", "--page", pipe).err
    assert pipe.is_fifo()
    (tmp_path / "loop").symlink_to("loop")
    assert "is a link that leads back to itself" in run("words", "--page", tmp_path / "loop").err


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    ran = shell(f"cd '{gone}' && rmdir '{gone}' && PYTHONPATH='{Path.cwd()}' plainseam measures --out x")
    assert "error: `x` cannot be written: no such file or directory" in ran.stderr


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0 or not shutil.which("setpriv"), reason="needs another user")
def test_folders_that_another_user_keeps_closed_are_told(tmp_path: Path) -> None:
    place = Path(tempfile.gettempdir()) / f"closed-{os.getpid()}"
    place.mkdir(mode=0o700)
    drop = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--bounding-set=-all", "--inh-caps=-all"]
    try:
        for words in (
            ["about", place / "a"], ["about", place / "a.piece"], ["walk", "marlpit", "--fabric", place / "a"],
            ["measures", "--out", place / "x"], ["words", "--page", place / "x"], ["tidy", place / "a"],
        ):  # fmt: skip
            ran = subprocess.run([*drop, *COMMAND, *map(str, words)], capture_output=True, text=True)
            if "No module named" in ran.stderr or "Permission denied: " in ran.stderr:
                pytest.skip("another user may not even start the command here")
            assert ran.returncode == 1 and "permission denied" in ran.stderr and "Traceback" not in ran.stderr, words
    finally:
        place.rmdir()


@pytest.mark.skipif(sys.platform != "linux", reason="the test lists processes as Linux does")
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL])
def test_workers_end_with_the_command_and_say_nothing(tmp_path: Path, how: signal.Signals) -> None:
    words = ["pack", "marlpit", "--paper", "a0", "--out", str(tmp_path / "pack")]
    with subprocess.Popen([*COMMAND, *words], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
                          start_new_session=True) as run:  # fmt: skip
        workers = _workers(run.pid)
        os.killpg(run.pid, how) if how is signal.SIGINT else run.send_signal(how)
        _, said = run.communicate()
    assert workers and said.strip() == ("stopped; nothing was written" if how is signal.SIGINT else "")
    for _ in range(200):
        if not any(map(_is_running, workers)):
            break
        time.sleep(0.05)
    assert not any(map(_is_running, workers))
    assert not (tmp_path / "pack").exists()


def _workers(parent: int) -> list[int]:
    for _ in range(600):
        found = subprocess.run(["ps", "-o", "pid=", "--ppid", str(parent)], capture_output=True, text=True).stdout
        if len(found.split()) > 1:
            return [int(pid) for pid in found.split()]
        time.sleep(0.02)
    return []


def _is_running(pid: int) -> bool:
    said = subprocess.run(["ps", "-o", "stat=", "-p", str(pid)], capture_output=True, text=True).stdout.strip()
    return bool(said) and not said.startswith("Z")
