"""The verb that opens the page: what does not go together is told before anything is started."""

from __future__ import annotations

import signal
from pathlib import Path

import pytest

from draft.page import serving
from draft.page.page_settings import Settings
from tests.command.run import Runner
from tests.page.conftest import page_started


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Runner:
    """The command in this process."""
    return Runner(monkeypatch, capsys)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("marlpit", "--public", "https://seams.example"), "opens no file"),
        (("--public", "seams.example"), "no address"),
        (("--public", "https://seams.example/under"), "no address"),
        (("--host", "0.0.0.0"), "goes with `--public`"),
        (("--port", "70000"), "70000"),
    ],
)
def test_what_does_not_go_together(run: Runner, words: tuple[str, ...], said: str) -> None:
    done = run("page", *words, "--no-open")
    assert (done.code, said in done.err) == (2, True)


def test_a_file_that_is_not_there(run: Runner) -> None:
    done = run("page", "marlpitt", "--no-open")
    assert done.code == 1
    assert "marlpit" in done.err


def test_it_says_what_is_not_installed(run: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("draft.command.open_page.NEEDED", ("starlette", "no_such_package"))
    done = run("page")
    assert done.code == 1
    assert "no_such_package" in done.err and "plainseam[page]" in done.err


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    from draft.base.notes import Problems

    first = serving._listening(Settings(port=0))
    try:
        with pytest.raises(Problems, match="port"):
            serving._listening(Settings(port=first.getsockname()[1]))
    finally:
        first.close()


def test_the_key_is_kept_for_its_owner_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    key = serving.kept_key()
    assert serving.kept_key() == key
    (file,) = tmp_path.rglob("page-key")
    assert file.stat().st_mode & 0o077 == 0
    file.write_text("short")
    assert len(serving.kept_key()) >= 32


def test_the_page_ends_with_its_workers(tmp_path: Path) -> None:
    process, _ = page_started(tmp_path)
    children = Path(f"/proc/{process.pid}/task/{process.pid}/children")
    if not children.exists():
        process.kill()
        pytest.skip("this system does not tell whose child a process is")
    workers = [int(number) for number in children.read_text().split()]
    process.send_signal(signal.SIGINT)
    assert process.wait(30) in (0, -signal.SIGINT)
    assert not [worker for worker in workers if Path(f"/proc/{worker}").exists()]
