"""A procedure's text into the model; every problem is collected with its line."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.condition import Condition, condition
from guide.procedure.model import Branch, Caution, Check, Doing, Fact, Procedure, Stage, Step
from guide.procedure.problem import Place, Problem, Unusable, problem
from guide.procedure.text import Node, parse
from guide.procedure.vocabulary import (
    DECISIONS,
    FACT_KINDS,
    GATE_OPENS,
    GATE_SETS,
    KINDS,
    SERVES_AS,
    TAKES,
    TIGHTENS,
    WITNESSED,
)
from guide.roles import ROLES

NOWHERE = Node("", Place(1, 1), {})
ONLY_IN = {
    "checks": "gate",
    "opens": "gate",
    "ask": "facts",
    "take": "readings",
    "serves-as": "readings",
    "tighten": "tightening",
    "decisions": "verdict",
}
"""Keys that belong to one kind of step, which cannot do without the first of them."""
NEEDED = {
    "gate": "checks",
    "facts": "ask",
    "readings": "take",
    "tightening": "tighten",
    "verdict": "decisions",
}


def load(path: Path) -> Procedure:
    """The procedure in a file; raises `Unusable` with all its problems, or `BadInput`."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(
            N_("{path} cannot be read ({why})."), N_("Name a procedure file."), path=path, why=error
        ) from None
    return read(text, path.name)


@lru_cache(maxsize=16)
def read(text: str, file: str) -> Procedure:
    """The procedure in a text, read once; `file` is only named in problems."""
    reader = _Reader()
    made = reader.procedure(parse(text, file), file, text)
    if reader.problems:
        found = sorted(reader.problems, key=lambda each: (each.place.line, each.place.column))
        raise Unusable(file, tuple(found))
    return made


class _Fields:
    """One mapping of the file: gives out its keys and reports those that nobody asked for."""

    def __init__(self, reader: _Reader, node: Node, step: str = "") -> None:
        self.reader = reader
        self.node = node
        self.step = step
        self.left: dict[str, Node] = {}
        if isinstance(node.value, dict):
            self.left = dict(node.value)
        else:
            self.complain(node.place, N_("a mapping of `key: value` lines is wanted here"))

    def complain(self, place: Place, sentence: str, **values: object) -> None:
        """Keep one problem."""
        self.reader.problems.append(problem(place, sentence, self.step, **values))

    def where(self, key: str) -> Place:
        """The place of a key, or of the mapping when it is not there."""
        return self.node.keys.get(key, self.node.place)

    def text(self, key: str, default: str | None = None, among: Iterable[str] = ()) -> str:
        """A scalar; without a default it has to be there, and with `among` to be one of them."""
        node = self.left.pop(key, None)
        if node is None:
            if default is None:
                self.complain(self.node.place, N_("`{key}` is missing"), key=key)
            return default or ""
        if not isinstance(node.value, str):
            self.complain(node.place, N_("`{key}` must be one piece of text"), key=key)
            return ""
        value = " ".join(node.value.split()) if "\n" not in node.value else node.value.strip()
        if default is None and not value:
            self.complain(node.place, N_("`{key}` is empty"), key=key)
        allowed = tuple(among)
        if allowed and value not in allowed:
            self.complain(
                node.place,
                N_("`{key}: {value}` is not known; it may be {allowed}"),
                key=key,
                value=value,
                allowed=", ".join(filter(None, allowed)),
            )
        return value

    def items(self, key: str, needed: bool = False) -> list[Node]:
        """A list of nodes; a lone scalar counts as a list of one."""
        node = self.left.pop(key, None)
        if node is None:
            if needed:
                self.complain(self.node.place, N_("`{key}` is missing"), key=key)
            return []
        if isinstance(node.value, dict):
            self.complain(node.place, N_("`{key}` must be a list"), key=key)
            return []
        if isinstance(node.value, str):
            return [node] if node.value.strip() else []
        if needed and not node.value:
            self.complain(node.place, N_("`{key}` is empty"), key=key)
        return node.value

    def words(self, key: str, needed: bool = False) -> tuple[tuple[str, Place], ...]:
        """A list of scalars with their places."""
        found = []
        for node in self.items(key, needed):
            if isinstance(node.value, str):
                found.append((" ".join(node.value.split()), node.place))
            else:
                self.complain(node.place, N_("`{key}` must be a list of plain words"), key=key)
        return tuple(found)

    def condition(self, text: str, place: Place) -> Condition | None:
        """A condition, or a problem where it cannot be read."""
        try:
            return condition(text)
        except ValueError as error:
            self.complain(
                place,
                N_("`{part}` is not a condition; write `name=value`, joined by and/or"),
                part=error,
            )
            return None

    def one_condition(self, key: str) -> Condition | None:
        """The condition under a key, if it is there."""
        place = self.left[key].place if key in self.left else self.node.place
        text = self.text(key, "")
        return self.condition(text, place) if text else None

    def conditions(self, key: str) -> tuple[Condition, ...]:
        """A list of conditions."""
        made = (self.condition(text, place) for text, place in self.words(key))
        return tuple(each for each in made if each)

    def doings(self, key: str) -> tuple[Doing, ...]:
        """A list of actions, each perhaps with `if` and a condition behind it."""
        found = []
        for text, place in self.words(key):
            action, _, only_if = text.partition(" if ")
            found.append(Doing(action, self.condition(only_if, place) if only_if else None, place))
        return tuple(found)

    def nothing_else(self) -> None:
        """Report the keys that nobody asked for."""
        for key in self.left:
            self.complain(self.where(key), N_("`{key}` is not a key here"), key=key)


class _Reader:
    """Reads the whole tree and keeps its problems."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []

    def procedure(self, tree: Node, file: str, text: str) -> Procedure:
        """The whole file."""
        top = _Fields(self, tree)
        name = top.text("procedure")
        made = Procedure(
            name=name,
            revision=top.text("revision"),
            title=top.text("title"),
            purpose=top.text("purpose", ""),
            rests_on=tuple(word for word, _ in top.words("rests-on", needed=True)),
            facts=self.facts(top),
            stages=(),
            steps=(),
            file=file,
            text=text,
        )
        stages, steps = self.stages(top)
        top.nothing_else()
        self.names_are_single(steps)
        self.targets_exist(steps)
        self.facts_exist(made.facts, steps)
        return Procedure(**{**made.__dict__, "stages": stages, "steps": steps})

    def facts(self, top: _Fields) -> dict[str, Fact]:
        """The facts that the procedure may ask."""
        node = top.left.pop("facts", None)
        if node is None or not isinstance(node.value, dict):
            return {}
        return {name: self.fact(name, each) for name, each in node.value.items()}

    def fact(self, name: str, node: Node) -> Fact:
        """One fact; a choice needs its answers."""
        fields = _Fields(self, node, name)
        of = fields.left.pop("of", NOWHERE)
        made = Fact(
            name=name,
            ask=fields.text("ask"),
            kind=fields.text("kind", "text", FACT_KINDS),
            of={
                key: each.value if isinstance(each.value, str) else ""
                for key, each in (of.value.items() if isinstance(of.value, dict) else ())
            },
            help=fields.text("help", ""),
            may_be_unknown=fields.text("unknown", "no", ("yes", "no")) == "yes",
            place=node.place,
            usual=fields.text("usual", ""),
        )
        may_be = (*made.closed, *(("unknown",) if made.may_be_unknown else ()))
        if made.usual and made.closed and made.usual not in may_be:
            fields.complain(
                fields.where("usual"),
                N_("`usual` is not one of the answers"),
            )
        if made.kind == "choice" and not made.of:
            fields.complain(node.place, N_("a choice needs its answers under `of`"))
        fields.nothing_else()
        return made

    def stages(self, top: _Fields) -> tuple[tuple[Stage, ...], tuple[Step, ...]]:
        """Stages with all their steps."""
        stages: list[Stage] = []
        steps: list[Step] = []
        for node in top.items("stages", needed=True):
            fields = _Fields(self, node)
            stages.append(Stage(fields.text("stage"), fields.text("title")))
            steps += (
                self.step(each, stages[-1].name) for each in fields.items("steps", needed=True)
            )
            fields.nothing_else()
        return tuple(stages), tuple(steps)

    def step(self, node: Node, stage: str) -> Step:
        """One step."""
        fields = _Fields(self, node)
        fields.step = fields.text("step")
        kind = fields.text("kind", None, KINDS)
        again = fields.doings("again") if "again" in fields.left else None
        self.keys_fit(fields, kind)
        made = Step(
            name=fields.step,
            kind=kind,
            stage=stage,
            title=fields.text("title"),
            full=fields.text("full"),
            brief=fields.text("brief"),
            why=fields.text("why", ""),
            good=fields.text("good", ""),
            wrong=fields.text("wrong", ""),
            cautions=tuple(self.caution(each, fields) for each in fields.items("cautions")),
            does=fields.doings("does"),
            needs=fields.conditions("needs"),
            when=fields.one_condition("when"),
            go=tuple(self.branch(each, fields) for each in fields.items("go")),
            again=again,
            checks=tuple(self.check(each, fields) for each in fields.items("checks")),
            opens=fields.text("opens", "", ("", *GATE_OPENS)),
            ask=tuple(word for word, _ in fields.words("ask")),
            take=fields.text("take", "", ("", *TAKES)),
            serves_as=fields.text("serves-as", "", ("", *SERVES_AS)),
            tighten=fields.text("tighten", "", ("", *TIGHTENS)),
            decisions=tuple(word for word, _ in fields.words("decisions")),
            witness=self.witness(fields, kind),
            place=node.place,
            places=node.keys,
        )
        self.numbers_fit(made, fields)
        fields.nothing_else()
        return made

    def witness(self, fields: _Fields, kind: str) -> str:
        """The role of a second person, which only some kinds of step may ask for."""
        if "witness" in fields.left and kind not in WITNESSED:
            fields.complain(
                fields.where("witness"),
                N_("`witness` belongs to a step of kind {kinds}, and this one is {kind}"),
                kinds=", ".join(WITNESSED),
                kind=kind,
            )
        return fields.text("witness", "", ("", *ROLES))

    def keys_fit(self, fields: _Fields, kind: str) -> None:
        """A key of another kind of step is refused, and the kind's own key has to be there."""
        for key, owner in ONLY_IN.items():
            if key in fields.left and owner != kind:
                fields.complain(
                    fields.where(key),
                    N_("`{key}` belongs to a step of kind {owner}, and this one is {kind}"),
                    key=key,
                    owner=owner,
                    kind=kind,
                )
        if NEEDED.get(kind, "step") not in (*fields.left, "step"):
            fields.complain(
                fields.node.place,
                N_("a step of kind {kind} needs `{key}`"),
                kind=kind,
                key=NEEDED[kind],
            )

    def numbers_fit(self, step: Step, fields: _Fields) -> None:
        """One to five checks in a gate, no actions in it, known decisions at a verdict."""
        if step.kind == "gate" and not 1 <= len(step.checks) <= 5:
            fields.complain(fields.where("checks"), N_("a gate has one to five checks"))
        if step.kind in ("gate", "correction", "tightening") and step.does:
            fields.complain(
                fields.where("does"),
                N_("a step of kind {kind} takes no `does`; what it does is built in"),
                kind=step.kind,
            )
        for each in set(step.decisions) - set(DECISIONS):
            fields.complain(fields.where("decisions"), N_("`{each}` is not a decision"), each=each)

    def caution(self, node: Node, parent: _Fields) -> Caution:
        """A hazard and what to do about it."""
        fields = _Fields(self, node, parent.step)
        made = Caution(fields.text("hazard"), fields.text("action"))
        fields.nothing_else()
        return made

    def branch(self, node: Node, parent: _Fields) -> Branch:
        """A condition and the step it leads to."""
        fields = _Fields(self, node, parent.step)
        made = Branch(fields.one_condition("if"), fields.text("to"), node.place)
        fields.nothing_else()
        return made

    def check(self, node: Node, parent: _Fields) -> Check:
        """One line of a gate: the hazard and the way to look are never left out."""
        fields = _Fields(self, node, parent.step)
        made = Check(
            say=fields.text("say"),
            hazard=fields.text("hazard"),
            look=fields.text("look"),
            sets=fields.text("sets", "", ("", *GATE_SETS)),
            confirms=fields.one_condition("confirms"),
            each_person=fields.text("each-person", "no", ("yes", "no")) == "yes",
            place=node.place,
        )
        fields.nothing_else()
        return made

    def names_are_single(self, steps: tuple[Step, ...]) -> None:
        """No two steps share a name."""
        seen: dict[str, Step] = {}
        for step in steps:
            first = seen.setdefault(step.name, step)
            if first is not step:
                self.problems.append(
                    problem(
                        step.place,
                        N_("a step of this name stands already on line {line}"),
                        step.name,
                        line=first.place.line,
                    )
                )

    def targets_exist(self, steps: tuple[Step, ...]) -> None:
        """Every branch leads to a step that is there."""
        names = {step.name for step in steps} | {"abandoned"}
        self.problems += (
            problem(branch.place, N_("there is no step `{to}`"), step.name, to=branch.to)
            for step in steps
            for branch in step.go
            if branch.to not in names
        )

    def facts_exist(self, facts: dict[str, Fact], steps: tuple[Step, ...]) -> None:
        """Every fact that a step asks is described, and every fact described is asked."""
        self.problems += (
            problem(
                step.places.get("ask", step.place),
                N_("the fact `{name}` is asked and not described under `facts`"),
                step.name,
                name=name,
            )
            for step in steps
            for name in step.ask
            if name not in facts
        )
        asked = {name for step in steps for name in step.ask}
        self.problems += (
            problem(fact.place, N_("the fact `{name}` is never asked"), name=fact.name)
            for fact in facts.values()
            if fact.name not in asked
        )
