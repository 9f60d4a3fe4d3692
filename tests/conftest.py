"""Expected texts beside the inputs of tests, rewritten by `pytest --update` and read by a person before committing."""

from __future__ import annotations

import gc
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.rewriting import Rewriting

Expect = Callable[[Path, str], None]
REWRITING = pytest.StashKey[Rewriting]()

# On a busy machine an example takes as long as it takes: whatever is timed says so itself, and counts its own seconds.
settings.register_profile("busy", settings(), deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("busy")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="rewrite the expected files beside the tests' inputs")


def pytest_configure(config: pytest.Config) -> None:
    gc.set_threshold(50_000, 20, 50)  # drafts that are kept for other tests would be looked through again and again
    config.stash[REWRITING] = Rewriting(config.getoption("--update"))
    if config.getoption("--update") and config.getoption("dist", "no") != "no":
        raise pytest.UsageError("expected files are rewritten by one process: give `--update` without `-n`")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """As many processes as there are cores, unless one is better."""
    option = config.option
    return 0 if option.update or in_one_process(option.markexpr, option.capture, config.args) else None


def in_one_process(markers: str, capture: str, asked: Sequence[str]) -> bool:
    """Whether times are taken, output is to be seen, or one file alone is run, often done before workers have begun."""
    files = {word.partition("::")[0] for word in asked}
    return "not slow" not in markers or capture == "no" or (len(files) == 1 and Path(*files).is_file())


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    rewriting = config.stash[REWRITING]
    if rewriting.asked:
        terminalreporter.section("expected files")
        for line, loud in rewriting.report(config.rootpath):
            terminalreporter.write_line(line, red=loud, bold=loud)


@pytest.fixture
def rewrite(request: pytest.FixtureRequest) -> Rewriting:
    """Writes a file if `--update` is given, and keeps what became of it."""
    return request.config.stash[REWRITING]


@pytest.fixture
def expect(rewrite: Rewriting) -> Expect:
    """Compares a text with the file that holds what is expected, or writes that file."""

    def check(path: Path, text: str) -> None:
        text = text.rstrip("\n") + "\n"
        rewrite(path, text)
        assert path.exists(), f"{path.name} is missing: run `pytest --update`, then read it"
        assert text == path.read_text(encoding="utf-8"), f"{path.name} has changed: `pytest --update` rewrites it"

    return check
