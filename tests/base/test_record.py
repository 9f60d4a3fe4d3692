"""Records are what Python's own data classes are, in all that the project asks of them."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, field, fields, replace
from typing import Any, Generic, TypeVar

import pytest

from draft.base import record

One = TypeVar("One")


def classes(dataclass: Callable[..., Any]) -> dict[str, Any]:
    """The same classes, made by one decorator or the other."""

    @dataclass(frozen=True)
    class Place:
        """A place."""

        x: float
        y: float = 2.0
        facts: dict[str, int] = field(default_factory=dict, hash=False, repr=False)
        text: str = field(default="", compare=False, repr=False)

        def moved(self, by: float) -> Any:
            return replace(self, x=self.x + by)

    @dataclass(frozen=True)
    class Named(Place):
        """A place with a name."""

        names: tuple[str, ...] = field(default=(), kw_only=True)

    @dataclass(frozen=True)
    class Alone(Generic[One]):
        """One part."""

        only: One

    @dataclass(frozen=True, eq=False)
    class Itself:
        """The same as nothing else."""

        x: float

    @dataclass
    class Growing:
        """What changes."""

        some: list[int] = field(default_factory=list)
        total: int = field(init=False)

        def __post_init__(self) -> None:
            self.total = sum(self.some)

    @dataclass(frozen=True, kw_only=True)
    class Said:
        """Parts by name."""

        a: int
        b: int = 1

        def __repr__(self) -> str:
            return "said"

    @dataclass(frozen=True)
    class Nothing:
        """No parts."""

    class Plain(Place):
        """What inherits without being a record itself."""

    return {name: made for name, made in locals().items() if isinstance(made, type)}


OURS, PYTHONS = classes(record.dataclass), classes(dataclasses.dataclass)


def uses(made: dict[str, Any]) -> list[Any]:
    place, growing = made["Place"], made["Growing"]
    many = [
        *(
            place(1.0),
            place(1.0, 2.0, {}, "other"),
            place(2, y=3, facts={"a": 1}),
            made["Named"](1.0, names=("a",)),
            made["Named"](1.0, 2.0),
        ),
        *(made["Alone"](3), made["Alone"]((3,)), made["Said"](a=1), made["Said"](a=1, b=2), made["Nothing"]()),
        *(growing(), growing([1, 2]), place(4.0).moved(1), made["Plain"](1.0), made["Plain"](1.0)),
    ]
    alike = [[one == other for other in many] for one in many]
    hashed = [len({hash(one) for one in (many[0], many[1], place(1.0))}), place.__hash__ is None, growing.__hash__]
    parts = [[part.name for part in fields(one)] for one in many]
    return [list(map(repr, many)), alike, hashed, parts, [one.__match_args__ for one in many], many[11].total]


def test_records_are_python_s_own_data_classes_in_all_that_is_asked() -> None:
    ours, pythons = (str(uses(made)).replace(", names=()", "") for made in (OURS, PYTHONS))
    assert ours == pythons


@pytest.mark.parametrize("made", [OURS, PYTHONS], ids=["ours", "python's"])
def test_a_frozen_record_stays_as_it_is(made: dict[str, Any]) -> None:
    place, itself = made["Place"](1.0), made["Itself"]
    for change in (lambda: setattr(place, "x", 2.0), lambda: delattr(place, "x"), lambda: setattr(place, "new", 1)):
        with pytest.raises(FrozenInstanceError):
            change()
    assert itself(1.0) != itself(1.0) and len({itself(1.0), itself(1.0)}) == 2
    plain = made["Plain"](1.0)
    plain.more = 3  # which is its own
    with pytest.raises(FrozenInstanceError):
        plain.x = 2.0


@pytest.mark.parametrize("made", [OURS, PYTHONS], ids=["ours", "python's"])
def test_what_is_missing_or_too_much_is_refused(made: dict[str, Any]) -> None:
    with pytest.raises(TypeError, match=r"missing 1 required positional argument: 'x'"):
        made["Place"]()
    with pytest.raises(TypeError, match="unexpected keyword argument 'z'"):
        made["Place"](1.0, z=2)
    with pytest.raises(TypeError, match="positional"):
        made["Said"](1)
    lists = made["Growing"](), made["Growing"]()
    assert lists[0].some is not lists[1].some


def test_the_first_records_of_a_class_are_filled_as_the_later_ones() -> None:
    ours, pythons = classes(record.dataclass), classes(dataclasses.dataclass)
    for _ in range(40):
        assert repr(ours["Place"](1, y=2)) == repr(pythons["Place"](1, y=2))
        assert ours["Growing"]([1, 2]).total == 3
        with pytest.raises(TypeError, match="multiple values for argument 'x'"):
            ours["Place"](1, x=2)
        with pytest.raises(TypeError, match="missing 1 required positional argument: 'x'"):
            ours["Place"](y=2)


@record.dataclass(frozen=True)
class Sent:
    """What another process is told."""

    x: int
    more: tuple[int, ...] = ()


def test_a_record_that_was_sent_is_the_same_even_where_none_was_made_before() -> None:
    sent = pickle.dumps(Sent(1, (2,)))
    there: Any = pickle.loads(sent)
    assert there == Sent(1, (2,)) and hash(there) == hash(Sent(1, (2,))) and copy.copy(there) == there
