"""A rehearsal: an answers file walked unattended, through the same engine as a person's setup."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NoReturn

from guide.plain import N_, BadInput, NotAllowed, Refusal
from guide.procedure.model import Procedure
from guide.procedure.problem import Place, Unusable, problem
from guide.procedure.text import Node, parse
from guide.procedure.vocabulary import TRIGGER
from guide.walk.looking import ASKED
from guide.walk.setup import Journal, Setup, open_setup
from guide.walk.state import MAKING_SAFE, MAKING_SURE
from guide.walk.world import as_dict

WHOLE_NUMBERS = ("screw", "tightened")
"""Entries that are counted, not measured."""
BETWEEN_ANSWERS = timedelta(minutes=1)


@dataclass(frozen=True)
class Answer:
    """One answer: the step it is for, what is done, and what is entered."""

    step: str
    trigger: str
    person: str
    data: Mapping[str, Any]
    place: Place


@dataclass(frozen=True)
class Answers:
    """An answers file."""

    file: str
    procedure: str
    person: str
    lathe: str
    begins: datetime
    answers: tuple[Answer, ...]

    def at(self, number: int) -> str:
        """The time of an answer, counted from 0: invented, a minute apart."""
        return stamp(self.begins + number * BETWEEN_ANSWERS)


def stamp(moment: datetime) -> str:
    """A moment as the journal writes it."""
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def read_answers(path: Path) -> Answers:
    """An answers file; raises `BadInput` naming the line."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(
            N_("{path} cannot be read ({why})."), N_("Name an answers file."), path=path, why=error
        ) from None
    try:
        return _answers(text, path)
    except Unusable as unusable:
        raise BadInput(N_("{problem}."), "", problem=unusable.problems[0].text(path.name)) from None


def _answers(text: str, path: Path) -> Answers:
    """The text of an answers file; raises `Unusable` at the first line that cannot be used."""
    top = _mapping(parse(text, path.name), path.name)
    person = _text(top, "person", path.name)
    try:
        begins = datetime.fromisoformat(_text(top, "begins", path.name))
    except ValueError:
        place = top["begins"].place
        _refuse(path.name, place, N_("`begins` is not a time such as 2026-01-05T08:00"))
    if begins.tzinfo is None:
        begins = begins.replace(tzinfo=UTC)
    listed = top.get("answers")
    if listed is None or not isinstance(listed.value, list):
        _refuse(path.name, Place(1, 1), N_("`answers` must be a list"))
    answers: list[Answer] = []
    for node in listed.value:
        answers.append(_answer(node, person, path.name))
        person = answers[-1].person
    return Answers(
        path.name,
        _text(top, "procedure", path.name),
        _text(top, "person", path.name),
        _text(top, "lathe", path.name),
        begins,
        tuple(answers),
    )


def _answer(node: Node, person: str, file: str) -> Answer:
    """One entry of the list; a take-over changes who answers from there on."""
    entry = _mapping(node, file)
    data = {name: _plain(each, name) for name, each in entry.items()}
    step = str(data.pop("step", ""))
    trigger = str(data.pop("do", ""))
    person = str(data.pop("person", person))
    return Answer(step, trigger, person, data, node.place)


def _plain(node: Node, name: str = "") -> Any:
    """A node as text, lists and mappings; counted entries as whole numbers."""
    if isinstance(node.value, dict):
        return {key: _plain(each, key) for key, each in node.value.items()}
    if isinstance(node.value, list):
        return [_plain(each) for each in node.value]
    return int(node.value) if name in WHOLE_NUMBERS and node.value.isdigit() else node.value


def _mapping(node: Node, file: str) -> dict[str, Node]:
    """A mapping, or the line that is none."""
    if not isinstance(node.value, dict):
        _refuse(file, node.place, N_("a mapping of `key: value` lines is wanted here"))
    return node.value


def _text(top: dict[str, Node], key: str, file: str) -> str:
    """A piece of text that has to be there."""
    node = top.get(key)
    if node is None or not isinstance(node.value, str) or not node.value.strip():
        _refuse(file, Place(1, 1), N_("`{key}` is missing"), key=key)
    return node.value.strip()


def _refuse(file: str, place: Place, sentence: str, **values: object) -> NoReturn:
    """Stop at a line that cannot be used."""
    raise Unusable(file, (problem(place, sentence, "", **values),))


Watch = Callable[[Setup], None]
"""Told of a walk after each event of it."""


def unwatched(walk: Setup) -> None:
    """Nobody looks on."""


def rehearse(
    procedure: Procedure, answers: Answers, journal: Journal, setup: str, watch: Watch = unwatched
) -> Setup:
    """Walk a procedure with a file's answers to its end; raises a Refusal naming the line."""
    if answers.procedure != procedure.name:
        raise BadInput(
            N_("{file} answers the procedure {other}, not {name}."),
            N_("Name the procedure that it was written for."),
            file=answers.file,
            other=answers.procedure,
            name=procedure.name,
        )
    walk = open_setup(
        journal,
        procedure,
        setup=setup,
        person=answers.person,
        at=answers.at(0),
        lathe=answers.lathe,
        mode="rehearsal",
        typed_at="file",
    )
    watch(walk)
    go_on(walk, answers, answers.answers, watch=watch)
    if walk.state.place != "finished":
        raise NotAllowed(
            N_("The answers in {file} end at {place}; the walk is not finished."),
            N_("Answer that step and those after it."),
            file=answers.file,
            place=walk.state.place,
        )
    return walk


def go_on(
    walk: Setup, answers: Answers, rest: Sequence[Answer], first: int = 1, watch: Watch = unwatched
) -> None:
    """Give answers one after the other; `first` counts the minutes of the invented clock."""
    for number, answer in enumerate(rest, start=first):
        try:
            give(walk, answer, answers.at(number))
            watch(walk)
        except Refusal as refusal:
            raise NotAllowed(
                N_("{file}:{line}: at {place}: {refusal}"),
                "",
                file=answers.file,
                line=answer.place.line,
                place=walk.state.place,
                refusal=refusal,
            ) from refusal


def give(walk: Setup, answer: Answer, at: str) -> None:
    """Give one answer, which has to be meant for the place where the walk stands."""
    if answer.step and answer.step != walk.state.place:
        raise NotAllowed(
            N_("the walk stands at {place} and the answer is for {step}."),
            N_("Nothing can be skipped or answered before its time."),
            place=walk.state.place,
            step=answer.step,
        )
    data = dict(answer.data)
    if "seen" in data:
        data["seen"] = as_seen(walk, data["seen"])
    walk.act(answer.trigger or _trigger(walk), data, person=answer.person, at=at)


def as_seen(walk: Setup, told: object) -> dict[str, str]:
    """What an answer says was seen; `rest: as-recorded` or `as-expected` stands for the others."""
    seen = {str(k): str(v) for k, v in told.items()} if isinstance(told, Mapping) else {}
    rest = seen.pop("rest", "")
    if rest == "as-recorded":
        return {n: v for n, v in as_dict(walk.state.world).items() if n in ASKED} | seen
    if rest == "as-expected":
        from guide.walk.as_found import expected_at_look

        world = expected_at_look(walk.state.world, walk.state.facts)
        return {n: v for n, v in as_dict(world).items() if n in ASKED} | seen
    return seen


def _trigger(walk: Setup) -> str:
    """The one trigger that passes the present place."""
    if walk.step is not None:
        return TRIGGER[walk.step.kind]
    return {MAKING_SURE: "record", MAKING_SAFE: "done"}.get(walk.state.place, "resume")
