"""Data classes that cost next to nothing until one is made: a start imports two hundred, and needs half of them.

Python's own compiles up to six methods for each class while it is imported, two thirds of a millisecond on a slow
machine. Here those that compare, hash, print and refuse changes are closures, and the one that fills a new record is
compiled when the first is made. `field`, `fields` and `replace` are Python's own, and for a type checker this is too.
What inherits from such a class is made so as well.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable
from operator import attrgetter
from reprlib import recursive_repr
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(cls=None, /, *, frozen=False, eq=True, kw_only=False):
        """As `dataclasses.dataclass`, of whose options it takes these three."""

        def made(cls):
            dataclasses.dataclass(cls, init=False, repr=False, eq=False, kw_only=kw_only)
            for name, method in _methods(cls, frozen, eq).items():
                if name not in vars(cls):
                    setattr(cls, name, method)
            return cls

        return made if cls is None else made(cls)


def _methods(cls: Any, frozen: bool, eq: bool) -> dict[str, Any]:
    parts = dataclasses.fields(cls)
    methods: dict[str, Any] = {"__init__": _first_filling(cls, frozen), "__repr__": _printing(parts)}
    if eq:
        compared = _values_of([part.name for part in parts if part.compare])
        hashed = _values_of([part.name for part in parts if (part.compare if part.hash is None else part.hash)])
        methods |= {"__eq__": _comparing(compared), "__hash__": _hashing(hashed) if frozen else None}
    return methods | (_refusing(cls, [part.name for part in parts]) if frozen else {})


def _values_of(names: list[str]) -> Callable[[Any], tuple[Any, ...]]:
    if len(names) > 1:
        return attrgetter(*names)
    return lambda record: tuple(getattr(record, name) for name in names)


def _comparing(values: Callable[[Any], tuple[Any, ...]]) -> Callable[[Any, Any], Any]:
    return lambda self, other: values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented


def _hashing(values: Callable[[Any], tuple[Any, ...]]) -> Callable[[Any], int]:
    return lambda self: hash(values(self))


def _printing(parts: Iterable[dataclasses.Field[Any]]) -> Callable[[Any], str]:
    names = [part.name for part in parts if part.repr]

    @recursive_repr()
    def printed(self: Any) -> str:
        return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in names)})"

    return printed


def _refusing(cls: Any, names: list[str]) -> dict[str, Any]:
    """No part of a frozen record is set or taken away; what a plain class that inherits from it adds is its own."""

    def setting(self: Any, name: str, value: object) -> None:
        if type(self) is cls or name in names:
            raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")
        super(cls, self).__setattr__(name, value)

    def deleting(self: Any, name: str) -> None:
        if type(self) is cls or name in names:
            raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")
        super(cls, self).__delattr__(name)

    return {"__setattr__": setting, "__delattr__": deleting}


# ---- filling a new record -------------------------------------------------------------------------------------------


_FEW = 16
"""So many records of a class are filled without a method compiled for it, which takes as long as some fifty of them."""


def _first_filling(cls: Any, frozen: bool) -> Callable[..., None]:
    """What fills the first few records of a class, and then makes way for a method that is compiled for it."""
    plan: _Plan | None = None
    left = _FEW

    def filling(self: Any, *given: Any, **named: Any) -> None:
        nonlocal plan, left
        plan, left = plan or _Plan(cls), left - 1
        if left > 0 and plan.fill(self, given, named):
            return
        if vars(cls)["__init__"] is filling:
            cls.__init__ = _filling(cls, frozen)
        cls.__init__(self, *given, **named)

    return filling


class _Plan:
    """How a record of a class is filled by what it is given."""

    def __init__(self, cls: Any) -> None:
        parts = dataclasses.fields(cls)
        self._ordered = [part.name for part in parts if part.init and not part.kw_only]
        self._taken = {part.name for part in parts if part.init}
        self._needed = {part.name for part in parts if part.init and not _has_usual(part)}
        self._parts = [(part.name, _usual(part)) for part in parts if part.init or _has_usual(part)]
        self._post = hasattr(cls, "__post_init__")

    def fill(self, record: Any, given: tuple[Any, ...], named: dict[str, Any]) -> bool:
        """Whether it could be filled; not so with what it does not take, or without what it needs."""
        values = dict(zip(self._ordered, given, strict=False))
        if len(given) > len(values) or not named.keys() <= self._taken or not values.keys().isdisjoint(named):
            return False
        values |= named
        if not self._needed <= values.keys():
            return False
        for name, usual in self._parts:
            object.__setattr__(record, name, values[name] if name in values else usual())
        if self._post:
            record.__post_init__()
        return True


def _has_usual(part: dataclasses.Field[Any]) -> bool:
    return part.default is not dataclasses.MISSING or part.default_factory is not dataclasses.MISSING


def _usual(part: dataclasses.Field[Any]) -> Callable[[], Any]:
    """What makes the value of a part that is not given."""
    return (lambda: part.default) if part.default_factory is dataclasses.MISSING else part.default_factory


def _filling(cls: Any, frozen: bool) -> Callable[..., None]:
    parts = dataclasses.fields(cls)
    known: dict[str, Any] = {"put_": object.__setattr__, "missing_": dataclasses.MISSING}
    ordered = [part for part in parts if part.init and not part.kw_only]
    named = [part for part in parts if part.init and part.kw_only]
    taken = [*(_taken(part, known) for part in ordered), *(["*"] if named else []), *(_taken(p, known) for p in named)]
    lines = [line for part in parts if (line := _put(part, known, frozen))]
    lines += ["self_.__post_init__()"] if hasattr(cls, "__post_init__") else []
    text = "\n ".join([f"def __init__({', '.join(['self_', *taken])}):", *(lines or ["pass"])])
    exec(compile(text, f"<{cls.__qualname__}>", "exec"), known)
    made = known["__init__"]
    made.__qualname__, made.__module__ = f"{cls.__qualname__}.__init__", cls.__module__
    return made  # type: ignore[no-any-return]


def _taken(part: dataclasses.Field[Any], known: dict[str, Any]) -> str:
    if part.default is not dataclasses.MISSING:
        known[f"default_{part.name}"] = part.default
        return f"{part.name}=default_{part.name}"
    return part.name if part.default_factory is dataclasses.MISSING else f"{part.name}=missing_"


def _put(part: dataclasses.Field[Any], known: dict[str, Any], frozen: bool) -> str:
    value = part.name
    if part.default_factory is not dataclasses.MISSING:
        known[f"make_{part.name}"] = part.default_factory
        value = f"make_{value}() if {value} is missing_ else {value}" if part.init else f"make_{value}()"
    elif not part.init:
        return ""
    return f"put_(self_, {part.name!r}, {value})" if frozen else f"self_.{part.name} = {value}"
