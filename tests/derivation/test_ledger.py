"""The ledger: what a judgement rests on, and nothing else."""

from tests.derivation.jobs import judged
from transom.derivation.ledger import ledger

NAME = "uprights-90hp"


def test_the_ledger_has_what_the_checks_reach() -> None:
    j, found = judged(NAME), ledger(judged(NAME))
    names = {e.name for e in found.of("number")}
    assert {"engine.power", "board.width", "factor gamma_F.action.value"} <= names
    assert [e.name for e in found.of("check")] == [c.id for c in j.worst]
    assert "checks.patch.sliding_stress" in {e.name for e in found.of("formula", weakest=True)}
    assert sum(found.counts("number").values()) == len(found.of("number"))


def test_a_default_that_was_replaced_is_not_in_it() -> None:
    """The example states its weight and speed: the table's are looked up and not used."""
    names = {e.name for e in ledger(judged(NAME)).entries}
    assert not any(n.startswith(("engine_weight", "factor thrust.speed")) for n in names)


def test_memory_is_named_row_by_row_and_the_weakest_link_rests_on_less_than_all() -> None:
    found = ledger(judged(NAME))
    assert found.memory
    assert all(e.known_by == "memory" for e in found.memory)
    assert 0 < len(found.of("number", weakest=True)) < len(found.of("number"))
