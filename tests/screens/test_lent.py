"""What stands on a page because of one thing never stands there for another."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.equipment.belongs import BELONGS, NAMED_BY
from guide.front.lent import Lent

NAMES = st.sampled_from(["Chuck 7", "chuck  7", "Chuck 9", ""])
ANSWERS = st.dictionaries(
    st.sampled_from([*BELONGS["chuck"], "nose"]), st.sampled_from(["4", "toward", ""])
)


def test_what_an_earlier_setup_told_goes_with_the_thing_it_named() -> None:
    """Remembered of Chuck 7: asked again for Chuck 9, and not for Chuck 7 spelled otherwise."""
    lent, given = Lent(), {"chuck": "Chuck 7", "sense": "toward", "mass": "", "nose": "camlock"}
    lent.remember(given)
    assert list(lent.renamed({**given, "chuck": "chuck  7"})) == []
    assert list(lent.renamed({**given, "chuck": "Chuck 9"})) == ["chuck"]
    assert lent.take_back("chuck", given) == ["sense"]
    assert list(lent.renamed({**given, "chuck": "Chuck 9"})) == []


def test_without_a_name_nothing_is_taken_back() -> None:
    """What is usual, with no thing named, is nobody's."""
    lent = Lent()
    lent.remember({"chuck": "", "sense": "toward"})
    assert list(lent.renamed({"chuck": "Chuck 9", "sense": "toward"})) == []


def test_another_diameter_of_a_bar_takes_nothing_back() -> None:
    """It is a measure of the bar and not its name; choosing another bar does."""
    lent, told = Lent(), {"bar-diameter": "30 mm", "bar-ground": "ground"}
    lent.lend("bar", "Bar 1", told)
    assert list(lent.renamed({**told, "bar-diameter": "29.98 mm"})) == []
    assert set(lent.take_back("bar", told)) == set(told)


@given(NAMES, NAMES, ANSWERS, ANSWERS)
def test_only_what_was_lent_and_not_changed_is_taken_back(before, now, lent_out, stands) -> None:
    """Whatever stands there by somebody's word stays; after it nothing is lent any more."""
    lent = Lent()
    lent.lend("chuck", before, lent_out)
    told = {**stands, NAMED_BY["chuck"]: now}
    back = lent.take_back("chuck", told)
    assert set(back) <= set(BELONGS["chuck"])
    assert all(stands.get(name) == lent_out[name] for name in back)
    kept = {name for name, each in lent_out.items() if stands.get(name) == each}
    assert kept & set(BELONGS["chuck"]) <= set(back)
    assert lent.take_back("chuck", told) == []
