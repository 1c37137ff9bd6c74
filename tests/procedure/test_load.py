"""A procedure's text into the model: what is kept, and every problem with its line."""

from __future__ import annotations

import json
from dataclasses import fields
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.procedure import shelf
from guide.procedure.condition import condition
from guide.procedure.load import load, read
from guide.procedure.model import Branch, Caution, Check, Fact, Procedure, Stage, Step
from guide.procedure.problem import Place, Problem, Unusable, problem
from guide.procedure.vocabulary import KINDS

TOP = """\
procedure: small
revision: "0.10"
title: A small procedure
rests-on: common practice, no source
facts:
  nose:
    ask: Which nose?
    kind: choice
    of: {long: long taper, camlock: cam-lock}
  guard-fitted: {ask: Is there a guard?, kind: yes-no, unknown: yes}
  lathe: {ask: Which lathe?}
stages:
  - stage: one
    title: One
    steps:
      - {step: told, kind: facts, title: T, full: F, brief: B, ask: [nose, guard-fitted, lathe]}
"""
END = "      - {step: signed, kind: sign-off, title: T, full: F, brief: B}\n"
HERE = TOP.count("\n") + 1
"""The line on which a step put between the two begins."""
SMALL = TOP + END
SOUND = (Path(__file__).parents[1] / "broken" / "sound-base.yaml").read_text(encoding="utf-8")


def step(*lines: str, kind: str = "task") -> str:
    """A step named `mine` with more lines, each on a line of its own."""
    words = ["title: T", "full: F", "brief: B"]
    first, *rest = ["step: mine", f"kind: {kind}", *words, *lines]
    return f"      - {first}\n" + "".join(f"        {each}\n" for each in rest)


def mine(*lines: str, kind: str = "task") -> Step:
    """The step `mine` of a procedure that can be used."""
    return read(TOP + step(*lines, kind=kind) + END, "some.yaml").by_name["mine"]


def problems(text: str) -> list[tuple[int, str]]:
    """The line of each problem of a text and what is said behind the place."""
    with pytest.raises(Unusable) as caught:
        read(text, "some.yaml")
    return [(each.place.line, each.text("").split(": ", 1)[1]) for each in caught.value.problems]


def wrong(*lines: str, kind: str = "task") -> list[tuple[int, str]]:
    """The problems of a procedure with a step `mine`, by line of that step (1 is its first)."""
    found = problems(TOP + step(*lines, kind=kind) + END)
    return [(line - HERE + 1, sentence) for line, sentence in found]


def test_a_procedure_keeps_its_head_as_typed_and_its_text() -> None:
    """The revision 0.10 is not 0.1, and the digest of a journal is of this very text."""
    made = read(SMALL, "small.yaml")
    assert (made.name, made.revision, made.title) == ("small", "0.10", "A small procedure")
    assert made.rests_on == ("common practice, no source",)
    assert (made.file, made.text) == ("small.yaml", SMALL)


def test_steps_keep_their_order_their_stage_and_their_lines() -> None:
    """A finding can point at the line of a step and of each of its keys."""
    made = read(TOP + step("when: guard=shut", "does: [open guard]") + END, "some.yaml")
    assert made.order == {"told": 0, "mine": 1, "signed": 2}
    assert {each.stage for each in made.steps} == {"one"}
    assert made.by_name["mine"].place == Place(HERE, 9)
    assert made.by_name["mine"].places["when"] == Place(HERE + 5, 9)
    assert made.by_name["mine"].does[0].place == Place(HERE + 6, 16)


def test_a_choice_is_closed_by_its_answers_and_yes_no_by_itself() -> None:
    """Only these may be tested by a branch; a text is open."""
    facts = read(SMALL, "some.yaml").facts
    assert facts["nose"].closed == ("long", "camlock")
    assert facts["guard-fitted"].closed == ("yes", "no")
    assert facts["lathe"].closed == ()
    assert (facts["lathe"].kind, facts["lathe"].may_be_unknown) == ("text", False)
    assert facts["guard-fitted"].may_be_unknown


def test_an_action_may_have_its_own_condition() -> None:
    """`if` divides the action from the condition on the machine."""
    first, second = mine("does: [fit spanner if spanner=out and nose=long, stop]").does
    assert first.action == "fit spanner"
    assert first.only_if == condition("spanner=out and nose=long")
    assert (second.action, second.only_if) == ("stop", None)


def test_a_lone_word_counts_as_a_list_of_one() -> None:
    """`does: look` and `does: [look]` are the same."""
    alone, listed = mine("does: look").does, mine("does: [look]").does
    assert [each.action for each in alone] == [each.action for each in listed] == ["look"]


def test_long_text_may_be_folded_or_kept_in_lines() -> None:
    """Folded text is one line without double blanks; kept text keeps its lines."""
    assert mine("why: >-", "  one", "  two").why == "one two"
    assert mine("why: |", "  one", "  two").why == "one\ntwo"


def test_a_branch_without_condition_is_always_taken() -> None:
    """And a walk may be ended by a branch."""
    first, second = mine("go: [{if: guard=shut, to: signed}, {to: abandoned}]").go
    assert (first.condition, first.to) == (condition("guard=shut"), "signed")
    assert (second.condition, second.to) == (None, "abandoned")


def test_again_is_told_apart_from_nothing() -> None:
    """A step that may be done again without undoing anything says so with an empty list."""
    assert mine().again is None
    assert mine("again: []").again == ()


def test_a_gates_check_keeps_what_hurts_and_how_to_look() -> None:
    """What it sets or confirms stays with it, and whether each person is asked."""
    check = "{say: S, hazard: H, look: L, confirms: chuck-key=out, each-person: yes}"
    (made,) = mine(f"checks: [{check}]", "opens: power", kind="gate").checks
    assert (made.say, made.hazard, made.look, made.sets) == ("S", "H", "L", "")
    assert made.confirms == condition("chuck-key=out")
    assert made.each_person


def test_every_problem_is_collected_in_the_order_of_the_lines() -> None:
    """One run of the check shows all there is to mend."""
    found = wrong("colour: red", "does: {a: b}", "when: a = b", "go: [{to: nowhere}]")
    assert found == [
        (6, "mine: `colour` is not a key here"),
        (7, "mine: `does` must be a list"),
        (8, "mine: `a = b` is not a condition; write `name=value`, joined by and/or"),
        (9, "mine: there is no step `nowhere`"),
    ]


def test_a_problem_reads_as_file_line_column_step_and_sentence() -> None:
    """So that an editor can jump there and a person knows the step."""
    with pytest.raises(Unusable) as caught:
        read(TOP + step("colour: red") + END, "some.yaml")
    line = f"some.yaml:{HERE + 5}:9: mine: `colour` is not a key here"
    assert caught.value.problems[0].text("some.yaml") == line
    assert line in str(caught.value)
    assert "some.yaml cannot be used" in str(caught.value)


@pytest.mark.parametrize("key", ["title", "full", "brief", "kind"])
def test_a_step_cannot_do_without_its_words(key: str) -> None:
    """Title, full and brief words and the kind are all wanted."""
    text = "".join(
        line for line in step().splitlines(keepends=True) if not line.strip().startswith(key)
    )
    assert (HERE, f"mine: `{key}` is missing") in problems(TOP + text + END)


@pytest.mark.parametrize("key", ["procedure", "revision", "title", "rests-on", "stages"])
def test_a_procedure_cannot_do_without_its_head(key: str) -> None:
    """What it is called, which revision, what it rests on."""
    head, stages = SMALL[: SMALL.index("stages:")], SMALL[SMALL.index("stages:") :]
    lines = "".join(each for each in head.splitlines(True) if not each.startswith(f"{key}:"))
    text = lines if key == "stages" else lines + stages
    assert (1, f"`{key}` is missing") in problems(text)


OWN = {
    "gate": "checks: [{say: S, hazard: H, look: L}]",
    "facts": "ask: [nose]",
    "readings": "take: turn",
    "tightening": "tighten: snug",
    "verdict": "decisions: [accept, stop]",
}
"""The key that a kind of step cannot do without."""


@pytest.mark.parametrize("kind", OWN)
def test_a_kind_of_step_needs_its_own_key(kind: str) -> None:
    """A gate checks, facts ask, readings take, a tightening tightens, a verdict decides."""
    key = OWN[kind].partition(":")[0]
    assert mine(OWN[kind], kind=kind).kind == kind
    assert (1, f"mine: a step of kind {kind} needs `{key}`") in wrong(kind=kind)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("owner", OWN)
def test_a_key_of_another_kind_of_step_is_refused(owner: str, kind: str) -> None:
    """A task takes no readings and a gate asks no facts."""
    if owner == kind:
        assert mine(OWN[owner], kind=kind)
        return
    key, own = OWN[owner].partition(":")[0], [OWN[kind]] if kind in OWN else []
    sentence = f"mine: `{key}` belongs to a step of kind {owner}, and this one is {kind}"
    assert wrong(*own, OWN[owner], kind=kind)[0] == (6 + len(own), sentence)


@pytest.mark.parametrize("kind", ["gate", "correction", "tightening"])
def test_what_is_built_in_is_not_written_too(kind: str) -> None:
    """The key or spanner that goes in and comes out is no author's to forget."""
    own = [OWN[kind]] if kind in OWN else []
    found = wrong(*own, "does: [stop]", kind=kind)
    assert found == [
        (
            6 + len(own),
            f"mine: a step of kind {kind} takes no `does`; what it does is built in",
        )
    ]


@pytest.mark.parametrize(("count", "fits"), [(1, True), (5, True), (6, False)])
def test_a_gate_has_one_to_five_checks(count: int, fits: bool) -> None:
    """Five at most are read; at the sixth the gate is refused."""
    line = f"checks: [{', '.join(['{say: S, hazard: H, look: L}'] * count)}]"
    if fits:
        assert len(mine(line, kind="gate").checks) == count
    else:
        assert wrong(line, kind="gate") == [(6, "mine: a gate has one to five checks")]


@pytest.mark.parametrize("key", ["say", "hazard", "look"])
def test_a_check_without_hazard_or_look_is_refused(key: str) -> None:
    """What is confirmed, what hurts if it is not so, and how to look."""
    parts = [f"{each}: X" for each in ("say", "hazard", "look") if each != key]
    assert wrong(f"checks: [{{{', '.join(parts)}}}]", kind="gate") == [
        (6, f"mine: `{key}` is missing")
    ]


@pytest.mark.parametrize("key", ["hazard", "action"])
def test_a_caution_names_the_hazard_and_the_action(key: str) -> None:
    """A caution that only frightens is none."""
    other = {"hazard": "action", "action": "hazard"}[key]
    assert wrong(f"cautions: [{{{other}: X}}]") == [(6, f"mine: `{key}` is missing")]


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("title2: X", "`title2` is not a key here"),
        ("why: [a, b]", "`why` must be one piece of text"),
        ("needs: {a: b}", "`needs` must be a list"),
        ("does: [[stop]]", "`does` must be a list of plain words"),
        ("go: [abandoned]", "a mapping of `key: value` lines is wanted here"),
        ("go: [{if: guard=shut}]", "`to` is missing"),
        ("go: [{to: signed, else: told}]", "`else` is not a key here"),
        ("does: [stop if Spindle]", "`Spindle` is not a condition"),
        ("needs: [guard=shut, guard]", ""),
    ],
)
def test_a_wrong_type_or_key_is_named_on_its_line(line: str, sentence: str) -> None:
    """Every finding stands on the line that has to be mended; a bare name is left to the walk."""
    if not sentence:
        assert mine(line).needs[1].text == "guard"
        return
    found = wrong(line)
    assert found[0][0] == 6
    assert f"mine: {sentence}" in found[0][1]


def test_two_steps_of_one_name_are_refused_with_both_lines() -> None:
    """A branch to that name could mean either."""
    assert wrong("does: [stop]", "why: X\n" + step())[-1] == (
        8,
        f"mine: a step of this name stands already on line {HERE}",
    )


def test_facts_are_asked_and_described_both() -> None:
    """A fact that nobody asks, or that nothing describes, is a slip of spelling."""
    text = SMALL.replace("ask: [nose,", "ask: [nozzle,")
    assert [sentence for _, sentence in problems(text)] == [
        "the fact `nose` is never asked",
        "told: the fact `nozzle` is asked and not described under `facts`",
    ]


def test_a_choice_needs_its_answers() -> None:
    """A choice without answers can never be answered."""
    text = SMALL.replace("    of: {long: long taper, camlock: cam-lock}\n", "")
    assert [said for _, said in problems(text)] == ["nose: a choice needs its answers under `of`"]


def test_a_file_that_cannot_be_read_is_bad_input(tmp_path: Path) -> None:
    """It is not there, it is a folder, or it is not text."""
    (tmp_path / "bytes.yaml").write_bytes(b"\xff\xfe\x00")
    for path in (tmp_path / "none.yaml", tmp_path, tmp_path / "bytes.yaml"):
        with pytest.raises(BadInput, match="cannot be read"):
            load(path)


def test_a_file_is_read_as_its_text(tmp_path: Path) -> None:
    """Only the file's own name is kept, not the folder it lies in."""
    path = tmp_path / "small.yaml"
    path.write_text(SMALL, encoding="utf-8")
    assert load(path) == read(SMALL, "small.yaml")


def test_the_shelf_finds_a_procedure_by_name_or_path(tmp_path: Path) -> None:
    """Shipped ones by name, any file by its path."""
    path = tmp_path / "small.yaml"
    path.write_text(SMALL, encoding="utf-8")
    assert shelf.find(str(path)).name == "small"
    names = [each.stem for each in shelf.files()]
    assert "chuck-removal" in names
    assert [shelf.find(name).name for name in names] == names


@pytest.mark.parametrize("name", ["no-such", "../procedures/chuck-removal", ""])
def test_the_shelf_says_what_is_there_when_a_name_is_not(name: str) -> None:
    """A name is a name and no path."""
    with pytest.raises(BadInput, match="chuck-removal"):
        shelf.find(name)


def complaints(text: str) -> tuple[Problem, ...]:
    """The problems for which a text is refused; none when it makes a procedure."""
    try:
        assert isinstance(read(text, "some.yaml"), Procedure)
    except Unusable as refusal:
        return refusal.problems or (problem(Place(), "refused for nothing"),)
    return ()


def is_used_or_refused(text: str) -> None:
    """A text makes a procedure, or is refused with problems that name places in it."""
    last = text.count("\n") + 2
    for each in complaints(text):
        assert 1 <= each.place.line <= last
        assert each.text("some.yaml").startswith(f"some.yaml:{each.place.line}:")


@given(st.data())
def test_a_sound_file_cut_anywhere_is_used_or_refused_and_never_breaks(data: st.DataObject) -> None:
    """A line dropped, doubled or cut short leads to a plain finding at worst."""
    lines = SOUND.splitlines()
    at = data.draw(st.integers(0, len(lines) - 1))
    cut = data.draw(st.integers(0, len(lines[at])))
    instead = data.draw(st.sampled_from([[], [lines[at]] * 2, [lines[at][:cut]]]))
    is_used_or_refused("\n".join([*lines[:at], *instead, *lines[at + 1 :]]))


MODEL = (Procedure, Stage, Step, Check, Caution, Fact, Branch)
KEYS = sorted(
    {field.name.replace("_", "-") for record in MODEL for field in fields(record)}
    | {"procedure", "stage", "step", "if", "unknown"}
)
"""What the records of the model are called in a file."""
VALUES = st.sampled_from(
    [*KINDS, "", "yes", "no", "mine", "look", "abandoned", "choice", "a=b", "not", "x if", "{n}"]
)
TREES = st.recursive(
    VALUES,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=6)
    ),
    max_leaves=25,
)


@given(TREES)
def test_any_tree_of_known_keys_is_used_or_refused_and_never_breaks(tree: object) -> None:
    """Whatever stands under whatever key, the only complaint is `Unusable`."""
    is_used_or_refused(json.dumps(tree))


@given(TREES, st.sampled_from(["facts", "stages", "rests-on"]))
def test_any_tree_in_a_sound_head_is_used_or_refused_and_never_breaks(
    tree: object, key: str
) -> None:
    """Deeper down, where facts, stages and steps are read, it holds as well."""
    head = {"procedure": "p", "revision": "1", "title": "T", "rests-on": "x", "facts": {}}
    stages = [{"stage": "s", "title": "T", "steps": tree}]
    is_used_or_refused(json.dumps({**head, "stages": stages, key: tree}))
    is_used_or_refused(json.dumps({**head, "stages": stages}))
