"""When a number key at a gate counts, with a clock made of numbers."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.present.gate_keys import QUIET, GateKeys, counted

KEYS = st.lists(
    st.tuples(st.integers(0, 80).map(lambda n: n / 20), st.sampled_from(["1", "2", "3", "enter"])),
    max_size=12,
).map(lambda keys: sorted(keys, key=lambda key: key[0]))


def fed(keys: list[tuple[float, str]], checks: int) -> tuple[int, ...]:
    """The incremental rule over a whole list, looked at just before every key and long after."""
    gate, numbers = GateKeys(checks), []
    for at, key in keys:
        numbers.append(gate.settled(at))
        gate.press(key, at)
    numbers.append(gate.settled(keys[-1][0] + 60 if keys else 0))
    return tuple(each for each in numbers if each is not None)


@given(KEYS, st.integers(1, 5))
def test_key_by_key_is_the_same_as_all_at_once(keys: list[tuple[float, str]], checks: int) -> None:
    """A screen that cannot see the next key yet counts exactly what the rule counts."""
    assert fed(keys, checks) == counted(keys, checks)


def test_a_number_alone_counts() -> None:
    """Nothing within the quiet time either side."""
    assert counted([(0.0, "1"), (1.0, "2")], 2) == (1, 2)


def test_just_under_the_quiet_time_neither_counts() -> None:
    """Two keys closer than the quiet time spoil each other."""
    assert counted([(0.0, "1"), (QUIET - 0.01, "2")], 2) == ()


def test_at_the_quiet_time_both_count() -> None:
    """The quiet time itself is far enough."""
    assert counted([(0.0, "1"), (QUIET, "2")], 2) == (1, 2)


def test_enter_never_counts_and_spoils_a_number_near_it() -> None:
    """An instrument that ends its number with Enter confirms nothing."""
    assert counted([(0.0, "enter"), (5.0, "1"), (5.1, "enter")], 3) == ()


@given(st.text("0123456789.-", min_size=2, max_size=12), st.floats(0.0, 0.05))
def test_an_instrument_that_types_confirms_nothing(digits: str, gap: float) -> None:
    """A burst of digits, however the numbers fall, never opens a check."""
    burst = [(place * gap, each) for place, each in enumerate([*digits, "enter"])]
    assert counted(burst, 5) == () == fed(burst, 5)


@given(KEYS)
def test_no_number_beyond_the_checks_counts(keys: list[tuple[float, str]]) -> None:
    """A gate of one check knows only 1."""
    assert set(counted(keys, 1)) <= {1}
