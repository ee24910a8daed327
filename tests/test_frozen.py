"""Frozen records against the standard library's own dataclasses, the independent reference."""

import copy
import dataclasses
import inspect
import pickle
from collections.abc import Callable
from functools import cached_property
from typing import Any, ClassVar

import pytest

from transom import frozen
from transom.board.grid import Rectangle

MAKERS = (dataclasses.dataclass, frozen.dataclass)


def both(define: Callable[[Any], type]) -> tuple[Any, Any]:
    """One class as the standard library makes it, and as we do."""
    return define(MAKERS[0]), define(MAKERS[1])


def plain(dataclass: Any) -> type:
    @dataclass(frozen=True)
    class Plank:
        """A plank."""

        length: float
        width: float = 90.0
        holes: list[float] = dataclasses.field(default_factory=list)
        note: str = dataclasses.field(default="", compare=False, repr=False)
        kinds: ClassVar[int] = 3

        @cached_property
        def area(self) -> float:
            return self.length * self.width

    return Plank


def by_word(dataclass: Any) -> type:
    @dataclass(frozen=True, kw_only=True)
    class Plank:
        length: float
        width: float = 90.0

    return Plank


def longer(dataclass: Any) -> type:
    base = plain(dataclass)

    @dataclass(frozen=True)
    class Longer(base):  # type: ignore[misc, valid-type]
        more: float = 1.0

        def __repr__(self) -> str:
            return "longer"

    return Longer


@pytest.mark.parametrize("define", [plain, by_word, longer])
def test_fields_signature_and_print_are_those_of_the_standard_library(define: Callable[[Any], type]) -> None:
    theirs, ours = both(define)
    assert [(f.name, f.default, f.kw_only) for f in dataclasses.fields(ours)] == [
        (f.name, f.default, f.kw_only) for f in dataclasses.fields(theirs)
    ]
    assert list(inspect.signature(ours).parameters) == list(inspect.signature(theirs).parameters)
    assert repr(ours(length=2.0)) == repr(theirs(length=2.0))
    assert ours.__match_args__ == theirs.__match_args__
    assert dataclasses.asdict(ours(length=2.0)) == dataclasses.asdict(theirs(length=2.0))


def test_parameters_keep_their_kinds_after_the_first_is_made() -> None:
    theirs, ours = both(by_word)
    ours(length=1.0)
    kinds = [p.kind for p in inspect.signature(theirs).parameters.values()]
    assert [p.kind for p in inspect.signature(ours).parameters.values()] == kinds
    with pytest.raises(TypeError):
        ours(1.0)


@pytest.mark.parametrize("define", [plain, longer])
def test_equal_and_hash_by_their_fields(define: Callable[[Any], type]) -> None:
    for made in both(define):
        a, b, c = made(1.0, note="x"), made(1.0, note="y"), made(2.0)
        assert a == b
        assert a not in (c, 1.0)
        with pytest.raises(TypeError, match="unhashable"):
            hash(a)
    theirs, ours = both(by_word)
    assert hash(ours(length=1.0)) == hash(theirs(length=1.0)) == hash(ours(length=1.0))
    assert len({ours(length=1.0), ours(length=1.0), ours(length=2.0)}) == 2


def test_of_one_kind_only_are_equal() -> None:
    plank, longer_one = plain(frozen.dataclass), longer(frozen.dataclass)
    assert plank(1.0) != longer_one(1.0)


def test_a_list_is_made_for_each() -> None:
    made = plain(frozen.dataclass)
    assert made(1.0).holes == []
    assert made(1.0).holes is not made(1.0).holes
    given: list[float] = []
    assert made(1.0, holes=given).holes is given


@pytest.mark.parametrize("define", [plain, by_word, longer])
def test_nothing_is_changed_or_deleted(define: Callable[[Any], type]) -> None:
    for made in both(define):
        record = made(length=1.0)
        with pytest.raises(dataclasses.FrozenInstanceError, match="cannot assign to field 'length'"):
            record.length = 2.0
        with pytest.raises(dataclasses.FrozenInstanceError, match="cannot delete field 'length'"):
            del record.length
        assert record.length == 1.0


def test_what_is_missing_or_unknown_is_refused_as_there() -> None:
    for made in both(plain):
        with pytest.raises(TypeError, match="missing 1 required positional argument: 'length'"):
            made()
        with pytest.raises(TypeError, match="unexpected keyword argument 'lenght'"):
            made(lenght=1.0)


def test_replaced_copied_pickled_and_cached() -> None:
    made = plain(frozen.dataclass)
    record = made(2.0)
    assert record.area == 180.0
    other = dataclasses.replace(record, width=10.0)
    assert (other.area, other.length, record.width) == (20.0, 2.0, 90.0)
    assert copy.deepcopy(record) == record
    corner = Rectangle(0.0, 1.0, 2.0, 3.0)
    assert pickle.loads(pickle.dumps(corner)) == corner


def test_one_that_may_change_is_the_standard_librarys() -> None:
    @frozen.dataclass
    class Open:
        length: float

    record = Open(1.0)
    record.length = 2.0
    assert record == Open(2.0)
