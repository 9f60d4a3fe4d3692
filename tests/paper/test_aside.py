"""Work done aside gives what it gives when it is done in turn, its mistakes too."""

from __future__ import annotations

import pytest

from draft.base.aside import aside
from draft.base.notes import Problems, error


@pytest.mark.parametrize("last", [False, True])
def test_work_done_aside_gives_its_result(last: bool) -> None:
    fetch = aside(lambda: {"a.pdf": b"%PDF" * 100_000}, last)
    assert fetch() == {"a.pdf": b"%PDF" * 100_000}


@pytest.mark.parametrize("last", [False, True])
def test_a_mistake_is_told_where_the_result_is_fetched(last: bool) -> None:
    def work() -> None:
        raise Problems([error("`a9` is not a page size")])

    fetch = aside(work, last)
    with pytest.raises(Problems, match="a9"):
        fetch()
