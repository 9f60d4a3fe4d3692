"""A file with tens of thousands of mistakes is told some of them, and the rest is counted or left."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from draft.base.notes import MANY, MOST_SHOWN, Problems, Source, caution, error, show
from draft.bodies.chart import read_chart
from draft.bodies.many import read_many
from draft.bodies.person import read_person
from draft.cloth.remnant import read_outline
from draft.fabrics.fabric import read_fabric
from draft.language.reader import read
from draft.plan.library import MOST_USED, with_used


def test_errors_come_first_and_the_rest_is_counted() -> None:
    said = show([*(caution(f"caution {k}") for k in range(MOST_SHOWN)), *(error(f"mistake {k}") for k in range(3))])
    assert said.startswith("error: mistake 0\n\nerror: mistake 1") and said.endswith("\n\nand 3 more")
    assert said.count("caution: ") == MOST_SHOWN - 3
    assert "more" not in show([error(f"mistake {k}") for k in range(MOST_SHOWN)])


@pytest.mark.parametrize(
    ("reading", "text"),
    [
        (read_person, "[measures]\n" + "".join(f"bust_girt{k} = 1\n" for k in range(2000))),
        (read_person, "".join(f"bust_girt{k} = 1\n" for k in range(2000)) + "[measures]\nbust_girth = '98 cm'\n"),
        (read_fabric, "".join(f"stretch_acros{k} = 1\n" for k in range(2000))),
        (lambda path: list(read_many(path)), "name," + "bust_girt," * 2000 + "\nAda\n"),
        (read_chart, "measure,unit,S\n" + "".join(f"bust_girt{k},cm,86\n" for k in range(2000))),
        (read_outline, "0 cm\n" * 2000),
    ],
    ids=["person", "keys", "cloth", "bodies", "chart", "remnant"],
)
def test_a_file_of_mistakes_has_no_more_notes_than_help(
    reading: Callable[[Path], object], text: str, tmp_path: Path
) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(text)
    with pytest.raises(Problems) as caught:
        reading(path)
    assert MANY <= len(caught.value.notes) <= MANY + 1


def test_a_pattern_uses_so_many_files_and_no_more(tmp_path: Path) -> None:
    (tmp_path / "own.piece").write_text("template t\n    points\n        a at 0, 0\n")

    def pattern(uses: int) -> Source:
        return Source("odd.piece", 'pattern odd\n    title "Odd"\n' + '    uses "own.piece"\n' * uses)

    assert len(with_used(read(pattern(MOST_USED)), tmp_path).used) == MOST_USED
    with pytest.raises(Problems) as caught:
        with_used(read(pattern(30_000)), tmp_path)
    assert "odd.piece:23:5: this pattern uses 30,000 files, more than 20" in show(caught.value.notes)
