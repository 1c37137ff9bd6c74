"""YAML text into nodes: scalars as typed, places kept, and everything clever refused."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.procedure.problem import Place, Problem, Unusable
from guide.procedure.text import DEEPEST, LONGEST, Node, parse, word_at_top

YAMLISH = st.text(alphabet="ab01:-?,[]{}#&*!|>'\"%@`~<=\\ \t\n\r", max_size=60)
"""Text made mostly of the signs that mean something in YAML."""
WORDS = st.text(st.characters(codec="utf-8", exclude_characters="\ufeff", max_codepoint=0xFFFF))
"""Text of one `\\uXXXX` a character when written as JSON."""
KEYS = st.text(alphabet="abcdefghij-", min_size=1, max_size=8)
TREES = st.recursive(
    WORDS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4)
)


def refused(text: str) -> Problem:
    """The one problem for which a text is refused."""
    with pytest.raises(Unusable) as caught:
        parse(text, "some.yaml")
    (problem,) = caught.value.problems
    return problem


def said(problem: Problem) -> str:
    """A problem's sentence with its values."""
    return problem.sentence.format_map(dict(problem.values))


def bare(node: Node) -> Any:
    """A tree without its places."""
    if isinstance(node.value, dict):
        return {key: bare(each) for key, each in node.value.items()}
    return [bare(each) for each in node.value] if isinstance(node.value, list) else node.value


TYPED = [
    "on", "off", "yes", "No", "true", "null", "~", "1:30", "0.010", "010", "0x1F", "1e3", "1_000",
    "+.inf", "2027-05-25", "45 ft-lb", "=", "<<",
]  # fmt: skip
"""What a YAML 1.1 reader makes into something else: bool, null, 90, 0.01, 8, 31, a date, …"""


@pytest.mark.parametrize("typed", TYPED)
def test_a_scalar_stays_as_it_was_typed(typed: str) -> None:
    """Nothing turns into a truth, a number, a time or a date."""
    assert bare(parse(f"key: {typed}\nlist: [{typed}]\n", "")) == {"key": typed, "list": [typed]}


@pytest.mark.parametrize("typed", TYPED)
def test_a_key_stays_as_it_was_typed(typed: str) -> None:
    """`on:` is the key `on`, and `yes:` the key `yes`."""
    assert bare(parse(f"{typed}: 1\n", "")) == {typed: "1"}


def test_a_missing_value_is_empty_text() -> None:
    """`key:` alone is empty and not null."""
    assert bare(parse("key:\n", "")) == {"key": ""}


def test_block_text_is_folded_or_kept_as_its_sign_says() -> None:
    """`>-` folds lines into one, `|` keeps them."""
    text = "folded: >-\n  one\n  two\nkept: |\n  one\n  two\n"
    assert bare(parse(text, "")) == {"folded": "one two", "kept": "one\ntwo\n"}


def test_every_node_and_key_knows_its_line_and_column() -> None:
    """Both are counted from 1, and a comment or an empty line counts."""
    tree = parse("# words\n\nsteps:\n  - step: one\n    does: [look, stop]\n", "")
    assert isinstance(tree.value, dict)
    assert (tree.place, tree.keys["steps"]) == (Place(3, 1), Place(3, 1))
    step = tree.value["steps"].value[0]
    assert (step.place, step.keys["does"]) == (Place(4, 5), Place(5, 5))
    assert [each.place for each in step.value["does"].value] == [Place(5, 12), Place(5, 18)]


def test_a_repeated_key_is_refused_with_both_lines() -> None:
    """The second one is pointed at, the first one is named."""
    problem = refused("does: [look]\ntitle: T\ndoes: [stop]\n")
    assert problem.place == Place(3, 1)
    assert said(problem) == "the key does stands here a second time (first on line 1)"


def test_the_same_key_in_two_mappings_is_no_repeat() -> None:
    """Every step may have its own title."""
    assert bare(parse("- a: 1\n- a: 2\n", "")) == [{"a": "1"}, {"a": "2"}]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a: &name words\n", Place(1, 4)),
        ("a: 1\nb: *name\n", Place(2, 4)),
        ("a: &name [1, 2]\n", Place(1, 4)),
        ("a:\n  - &name {b: 1}\n", Place(2, 5)),
        ("&name a: 1\n", Place(1, 1)),
        ("a: &one 1\nb:\n  <<: *one\n", Place(1, 4)),
    ],
)
def test_anchors_and_aliases_are_refused_where_they_stand(text: str, place: Place) -> None:
    """What a line says has to stand on that line."""
    problem = refused(text)
    assert (problem.place, said(problem)) == (
        place,
        "anchors and aliases are not used here; write it out",
    )


@pytest.mark.parametrize("tag", ["!", "!!int", "!!python/object:os.system", "!mine", "!!str"])
@pytest.mark.parametrize("value", ["1", "[1]", "{a: 1}"])
def test_a_tag_is_refused_where_it_stands(tag: str, value: str) -> None:
    """No text chooses what it is turned into."""
    problem = refused(f"a: 0\nb: {tag} {value}\n")
    assert problem.place == Place(2, 4)
    assert said(problem).startswith("the tag ")


def test_a_second_document_is_refused() -> None:
    """A file is one document; the second begins on the line named."""
    problem = refused("a: 1\n---\nb: 2\n")
    assert (problem.place.line, said(problem)) == (2, "only one document in a file")


@pytest.mark.parametrize("text", ["", "\n", "# only a comment\n"])
def test_an_empty_file_is_refused(text: str) -> None:
    """A file without a document says so on line 1."""
    problem = refused(text)
    assert (problem.place.line, said(problem)) == (1, "the file is empty")


def test_text_may_be_long_up_to_its_limit() -> None:
    """One character more is refused before it is read."""
    text = "a: 1\n".ljust(LONGEST)
    assert bare(parse(text, "")) == {"a": "1"}
    assert said(refused(text + " ")) == f"the file is too long ({LONGEST + 1} characters)"


def test_nesting_may_be_deep_up_to_its_limit() -> None:
    """One level more is refused at the place where it begins."""
    deepest = parse("[" * DEEPEST + "word" + "]" * DEEPEST, "")
    assert str(bare(deepest)).count("[") == DEEPEST
    problem = refused("[" * (DEEPEST + 1) + "word" + "]" * (DEEPEST + 1))
    assert (problem.place, said(problem)) == (Place(1, DEEPEST + 2), "nested too deep")


def test_brackets_without_end_are_refused_and_not_followed() -> None:
    """A hundred thousand of them neither hang nor overflow."""
    assert refused("[" * 100_000).place.line == 1


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a: b: c\n", 1),
        ("a: 1\nb: [1, 2\n", 3),
        ("a: 1\n\tb: 2\n", 2),
        ("a: 1\n b: 2\n", 2),
        ("a: 'never closed\n", 2),
        ("a: 1\nb: @word\n", 2),
    ],
)
def test_what_is_not_yaml_is_refused_at_its_line(text: str, line: int) -> None:
    """The line is the one at which the text can no longer be read."""
    problem = refused(text)
    assert problem.place.line == line
    assert said(problem).startswith("not YAML here: ")


@pytest.mark.parametrize("text", ["a: \x00\n", "a: \x07\n"])
def test_a_control_character_is_refused(text: str) -> None:
    """Bytes that are no text do not come through."""
    assert said(refused(text)).startswith("not YAML")


@pytest.mark.parametrize("text", ["? [a, b]\n: c\n", "{[a]: b}\n", "? {a: b}\n: c\n"])
def test_a_key_that_is_no_word_is_refused(text: str) -> None:
    """A list or a mapping is no key."""
    assert said(refused(text)) == "a key must be a word"


def test_the_refusal_names_file_line_and_column() -> None:
    """It reads as compilers write it, so that an editor can jump there."""
    with pytest.raises(Unusable, match=r"some\.yaml:2:4: the tag"):
        parse("a: 1\nb: !!int 2\n", "some.yaml")


@given(TREES)
def test_json_text_comes_back_as_it_went_in(tree: Any) -> None:
    """JSON of strings is YAML too (YAML 1.2.2, section 1.3); json of the library writes it."""
    assert bare(parse(json.dumps(tree), "")) == tree


def complaints(text: str) -> tuple[Problem, ...]:
    """The problems for which a text is refused; none when it is a tree."""
    try:
        parse(text, "some.yaml")
    except Unusable as refusal:
        return refusal.problems
    return ()


@given(YAMLISH | st.text(max_size=60))
def test_any_text_is_read_or_refused_and_never_breaks(text: str) -> None:
    """Whatever stands in a file, the only complaint is `Unusable`, and it names a place."""
    assert all(each.place.line >= 1 and each.place.column >= 1 for each in complaints(text))


def test_a_word_at_the_top_is_read_before_the_rest_of_the_text() -> None:
    """Behind other keys, and before what would be refused; of a deeper key nothing."""
    assert word_at_top("procedure: x\nfacts: {title: no}\ntitle: Some work\nrest: [", "title") == (
        "Some work"
    )


@pytest.mark.parametrize(
    "text", ["", "- title", "title: [a]", "other: a", "title: 'a", "title: &a b"]
)
def test_a_text_without_that_word_gives_a_blank(text: str) -> None:
    """Nothing is refused: the text was read as a whole when it was used."""
    assert word_at_top(text, "title") == ""


@given(YAMLISH)
def test_looking_for_a_word_never_fails(text: str) -> None:
    """Whatever the text is."""
    assert isinstance(word_at_top(text, "a"), str)
