"""Frozen records: the standard library's, put together at a quarter of what they cost there.

`dataclasses.dataclass` compiles half a dozen functions for each class. A run of `size` defines some two hundred classes,
and compiling took half of what importing the package did (tests/bench/imports.py). Here fields are the standard
library's own; what it would write for each class anew is shared by all, but for `__init__`, which is compiled when the
first of a class is made. They compare, print, pickle and refuse to be changed as there (`tests/test_frozen.py`).
"""

import dataclasses
from collections.abc import Callable
from functools import cache, partial
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(cls: type | None = None, /, *, frozen: bool = False, kw_only: bool = False) -> Any:
        """A dataclass; `frozen` ones are made here, others by the standard library."""
        made = partial(_frozen if frozen else dataclasses.dataclass, kw_only=kw_only)
        return made if cls is None else made(cls)


def _frozen(cls: Any, *, kw_only: bool) -> Any:
    """The class with fields, and all that a frozen dataclass has."""
    own = cls.__dict__
    # Python gives a class that has its own __eq__ no hash: neither does this.
    shared = {name: method for name, method in SHARED.items() if name not in own}
    made: Any = dataclasses.dataclass(init=False, repr=False, eq=False, kw_only=kw_only)(cls)
    for name, method in shared.items():
        setattr(made, name, method)
    if "__init__" not in own:
        made.__init__ = _at_first(made)
    return made


def _at_first(cls: Any) -> Callable[..., None]:
    """An `__init__` that puts the class's own in its place."""

    def first(self: object, *args: object, **kwargs: object) -> None:
        cls.__init__ = _compiled(cls)
        cls.__init__(self, *args, **kwargs)

    return first


def _compiled(cls: Any) -> Callable[..., None]:
    """`__init__` of the fields, with their defaults."""
    names: dict[str, Any] = {}
    by_word: list[str] = []
    by_place, body = ["self"], ["fields = self.__dict__"]
    for f in dataclasses.fields(cls):
        default = ""
        if f.default is not dataclasses.MISSING:
            names[f"default_{f.name}"], default = f.default, f"=default_{f.name}"
        elif f.default_factory is not dataclasses.MISSING:
            names[f"make_{f.name}"], names["MISSING"], default = f.default_factory, dataclasses.MISSING, "=MISSING"
        value = f"make_{f.name}() if {f.name} is MISSING else {f.name}" if default == "=MISSING" else f.name
        (by_word if f.kw_only else by_place).append(f.name + default)
        body.append(f"fields[{f.name!r}] = {value}")
    parameters = [*by_place, "*", *by_word] if by_word else by_place
    exec(f"def __init__({', '.join(parameters)}):\n  " + "\n  ".join(body), names)
    made = names["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made  # type: ignore[no-any-return]


@cache
def _compared(cls: Any) -> tuple[str, ...]:
    return tuple(f.name for f in dataclasses.fields(cls) if f.compare)


def _values(record: Any) -> tuple[object, ...]:
    return tuple(getattr(record, name) for name in _compared(record.__class__))


def _equal(self: Any, other: object) -> bool:
    return _values(self) == _values(other) if type(other) is type(self) else NotImplemented


def _hash(self: object) -> int:
    return hash(_values(self))


def _repr(self: Any) -> str:
    parts = (f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self) if f.repr)
    return f"{type(self).__qualname__}({', '.join(parts)})"


def _set(self: object, name: str, value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(self: object, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


class _Signature:
    """What `inspect.signature` and `help` say of a class whose `__init__` is yet to be compiled."""

    def __get__(self, record: object, cls: Any) -> object:
        import inspect

        parameters = list(inspect.signature(_compiled(cls)).parameters.values())
        return inspect.Signature(parameters[1:])


SHARED: dict[str, Any] = {
    "__eq__": _equal,
    "__hash__": _hash,
    "__repr__": _repr,
    "__setattr__": _set,
    "__delattr__": _delete,
    "__signature__": _Signature(),
}
