"""A procedure to begin from: sound as it stands, whatever it is called."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.procedure.begun import begun
from guide.procedure.load import load
from guide.walk.as_found import BY_NOSE
from guide.walk.closed import closed_facts
from guide.walk.proof import check

LINES = st.text(st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1).filter(
    lambda told: told.strip() and " ".join(told.split()) == told
)


def written(folder, name="chuck-cleaning", title="Clean a chuck", purpose="Often.", author="A. B."):
    """One that was begun, loaded from its file."""
    path = folder / f"{name}.yaml"
    path.write_text(begun(name, title, purpose, author), encoding="utf-8")
    return load(path)


def test_it_passes_check_as_it_stands(tmp_path) -> None:
    """Every reachable step and machine state: nothing is found."""
    assert check(written(tmp_path)).problems == ()


def test_it_is_checked_with_whatever_may_hang_on_the_nose(tmp_path) -> None:
    """A lathe mostly has a chuck on it: a walk that fits a bare nose alone would end nowhere."""
    made = written(tmp_path)
    named = {facts["on-nose"] for facts in closed_facts(made)}
    assert named == set(BY_NOSE) == set(made.facts["on-nose"].closed)
    assert check(made).problems == ()


def test_nobody_has_to_type_at_its_end(tmp_path) -> None:
    """What is left to say has a usual answer that is confirmed."""
    assert written(tmp_path).facts["notes"].usual


@settings(max_examples=60, deadline=None)
@given(title=LINES, author=LINES)
def test_whatever_is_said_is_read_back_as_it_was_said(tmp_path_factory, title, author) -> None:
    """Quotes, colons, dashes, signs of YAML: they are words here."""
    found = written(tmp_path_factory.mktemp("begun"), title=title, author=author)
    assert (found.title, found.author) == (title, author)


@pytest.mark.parametrize("name", ["", "Chuck", "a b", "../up", "-a", "a-", "ä", "a" * 300])
def test_a_name_that_no_file_should_have_is_refused(name) -> None:
    """One sentence, with how to write it."""
    with pytest.raises(BadInput, match=r"cannot be the name"):
        begun(name, "t", "p", "a")
