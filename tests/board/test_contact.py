"""One-way contact: eccentric footings, laws, and that it always ends."""

import numpy as np
import pytest

from transom.board import contact
from transom.board.contact import Contacts
from transom.errors import JobError


def footing(L: float, B: float, nx: int, ny: int) -> Contacts:
    """A rigid block on an even bed of unit stiffness per area that cannot pull."""
    x, y = ((np.arange(n) + 0.5) / n * size - size / 2 for n, size in ((nx, L), (ny, B)))
    X, Y = (g.ravel() for g in np.meshgrid(x, y, indexing="ij"))
    return Contacts(np.eye(nx * ny) * (nx * ny / (L * B)), np.stack([np.ones_like(X), X, Y]))


@pytest.mark.parametrize("e, length, pressure", [(0.15, 0.45, 1.1111), (0.20, 0.30, 1.6667)])
def test_footing_off_centre_one_way(e, length, pressure):
    """p = 2N/(3 b (L/2 - e)) without tension; N = 100 kN, b = 0.4, L = 0.6 m (MPa)."""
    f, q = footing(0.6, 0.4, 600, 1).bear(np.array([[0.1], [0.1 * e], [0.0]]), ["e"])
    assert (f > 0).mean() * 0.6 == pytest.approx(length, abs=2e-3)
    assert -q[0, 0] + 0.3 * abs(q[1, 0]) == pytest.approx(pressure, rel=1e-3)


@pytest.mark.parametrize(
    "e_x, e_y, peak, touching",
    [(0.2, 0, 2.2222, 0.9), (0.1, 0.1, 2.2045, 0.9853), (0.15, 0.15, 2.9711, 0.8594),
     (0.25, 0.15, 4.2073, 0.6547), (0.3, 0.3, 9.375, 0.32)],
)  # fmt: skip
def test_footing_off_centre_both_ways(e_x, e_y, peak, touching):
    """Unit square, p A/P and the share in contact (computed on a fine grid; last one in closed form)."""
    f, q = footing(1, 1, 40, 40).bear(np.array([[1.0], [e_x], [e_y]]), ["e"])
    assert -q[0, 0] + 0.5 * (abs(q[1, 0]) + abs(q[2, 0])) == pytest.approx(peak, rel=2e-3)
    assert (f > 0).mean() == pytest.approx(touching, abs=0.012)


def random_contacts(rng) -> tuple[Contacts, np.ndarray, np.ndarray]:
    m, r = int(rng.integers(3, 40)), int(rng.integers(0, 4))
    B = rng.normal(size=(m, m))
    contacts = Contacts(B @ B.T / m + np.diag(rng.uniform(0.01, 0.1, m)), rng.normal(size=(r, m)))
    return contacts, contacts.A @ np.abs(rng.normal(size=(m, 3))), rng.normal(size=(m, 3))


def test_laws_hold_and_both_methods_agree(monkeypatch):
    rng = np.random.default_rng(0)
    for _ in range(100):
        contacts, W, b = random_contacts(rng)
        f, q = contacts.bear(W, "abc", b)
        gap = contacts.M @ f + contacts.A.T @ q + b
        assert (f >= 0).all()
        assert gap.min() > -1e-8 * (1 + np.abs(f).max())
        assert np.abs(f * gap).max() < 1e-7 * (1 + np.abs(f).max() ** 2)
        assert np.abs(contacts.A @ f - W).max(initial=0) < 1e-9 * (1 + np.abs(f).max())
        with monkeypatch.context() as patch:
            patch.setattr(contact, "BLOCK_TRIES", 0)
            assert contacts.bear(W, "abc", b)[0] == pytest.approx(f, abs=1e-7 * (1 + np.abs(f).max()))


def test_ties_do_not_cycle(monkeypatch):
    """Equal supports under an even load: every ratio ties."""
    monkeypatch.setattr(contact, "BLOCK_TRIES", 0)
    f, _ = footing(1, 1, 6, 6).bear(np.array([[1.0, 1.0], [0.0, 0.25], [0.0, 0.0]]), "ab")
    assert f[:, 0] == pytest.approx(np.full(36, 1 / 36))
    assert f.sum(axis=0) == pytest.approx([1.0, 1.0])


@pytest.mark.parametrize("tries", [0, contact.BLOCK_TRIES])
def test_what_cannot_be_carried_is_refused_by_name(monkeypatch, tries):
    monkeypatch.setattr(contact, "BLOCK_TRIES", tries)
    for W in ([-1.0, 0.0, 0.0], [1.0, 0.7, 0.0]):
        with pytest.raises(JobError, match="case lifted"):
            footing(1, 1, 4, 4).bear(np.array(W)[:, None], ["lifted"])


def test_a_load_that_is_not_a_number_is_refused():
    with pytest.raises(JobError, match="case odd"):
        footing(1, 1, 4, 4).bear(np.array([[np.nan], [0.0], [0.0]]), ["odd"])


def test_no_load_no_force():
    f, q = footing(1, 1, 4, 4).bear(np.zeros((3, 1)), ["none"])
    assert not f.any()
    assert not q.any()


@pytest.mark.parametrize("tries", [contact.BLOCK_TRIES, 0], ids=["in blocks", "pivoted"])
def test_cases_with_contacts_of_their_own(monkeypatch, tries):
    """Each case as if the others' contacts were not there."""
    monkeypatch.setattr(contact, "BLOCK_TRIES", tries)
    rng = np.random.default_rng(7)
    for _ in range(20):
        contacts, W, b = random_contacts(rng)
        own = rng.random(b.shape) < 0.7
        own[:, 0] = True
        W = contacts.A @ np.where(own, 1.0 + rng.random(b.shape), 0.0)
        f, q = contacts.bear(W, "abc", b, own=own)
        for v in range(3):
            i = np.flatnonzero(own[:, v])
            alone = Contacts(contacts.M[np.ix_(i, i)], contacts.A[:, i])
            expected, motion = alone.bear(W[:, [v]], "a", b[i][:, [v]])
            assert f[i, v] == pytest.approx(expected[:, 0], abs=1e-7 * max(1.0, np.abs(expected).max()))
            assert not f[~own[:, v], v].any()
            assert contacts.M[i] @ f[:, v] + contacts.A[:, i].T @ q[:, v] == pytest.approx(
                alone.M @ expected[:, 0] + alone.A.T @ motion[:, 0], abs=1e-7
            )
