"""A procedure's text into the model; every problem is collected with its line."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from guide.plain import N_, BadInput
from guide.procedure.agreeing import disagreeing, otherwise_described
from guide.procedure.fields import Fields
from guide.procedure.including import Including
from guide.procedure.model import Branch, Caution, Check, Fact, Procedure, Stage, Step
from guide.procedure.parts import WRITTEN_IN, with_parts
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
    """The procedure in a file, with its parts; raises `Unusable` with every problem, `BadInput`."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(
            N_("{path} cannot be read ({why})."), N_("Name a procedure file."), path=path, why=error
        ) from None
    return read(with_parts(text, path), path.name)


@lru_cache(maxsize=16)
def read(text: str, file: str) -> Procedure:
    """The procedure in a text as it is kept, read once; `file` is only named in problems."""
    tree = parse(text, file)
    if "part" in tree.keys:
        told = problem(tree.keys["part"], N_("this is a part: check a procedure that includes it"))
        raise Unusable(file, (told,))
    reader = _Reader(tree, file)
    made = reader.procedure(tree, text)
    if reader.problems:
        found = sorted(reader.problems, key=lambda each: each.place.in_order)
        raise Unusable(file, tuple(found))
    return made


class _Reader:
    """Reads the whole tree and keeps its problems."""

    def __init__(self, tree: Node, file: str) -> None:
        self.problems: list[Problem] = []
        self.file = file
        self.parts = Including(tree, self.problems)

    def procedure(self, tree: Node, text: str) -> Procedure:
        """The whole file."""
        top = Fields(self.problems, tree)
        name = top.text("procedure")
        made = Procedure(
            name=name,
            revision=top.text("revision"),
            author=top.text("author", ""),
            approved_by=top.text("approved-by", ""),
            approved_on=top.text("approved-on", ""),
            title=top.text("title"),
            purpose=top.text("purpose", ""),
            rests_on=tuple(word for word, _ in top.words("rests-on", needed=True)),
            facts=self.facts(top.left.pop("facts", None)),
            stages=(),
            steps=(),
            file=self.file,
            text=text,
        )
        stages, steps = self.stages(top)
        top.left.pop(WRITTEN_IN, None)
        self.parts.never_included()
        top.nothing_else()
        facts = self.facts_of_parts(made.facts)
        self.problems += disagreeing(facts, steps, self.file)
        rests_on = (*made.rests_on, *self.parts.rests_on(made.rests_on))
        more = {"rests_on": rests_on, "facts": facts, "stages": stages, "steps": steps}
        return Procedure(**{**made.__dict__, **more})

    def facts_of_parts(self, own: dict[str, Fact]) -> dict[str, Fact]:
        """The procedure's facts and those of its parts; one name means one thing."""
        facts = dict(own)
        for part in self.parts.brought_in.values():
            for name, fact in self.facts(part.facts).items():
                first = facts.setdefault(name, fact)
                if replace(first, place=fact.place) != fact:
                    self.problems.append(otherwise_described(first, fact, self.file))
        return facts

    def facts(self, node: Node | None) -> dict[str, Fact]:
        """The facts that the procedure, or one of its parts, may ask."""
        if node is None or not isinstance(node.value, dict):
            return {}
        return {name: self.fact(name, each) for name, each in node.value.items()}

    def fact(self, name: str, node: Node) -> Fact:
        """One fact; a choice needs its answers."""
        fields = Fields(self.problems, node, name)
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

    def stages(self, top: Fields) -> tuple[tuple[Stage, ...], tuple[Step, ...]]:
        """Stages with all their steps."""
        stages: list[Stage] = []
        steps: list[Step] = []
        for node in top.items("stages", needed=True):
            fields = Fields(self.problems, node)
            stages.append(Stage(fields.text("stage"), fields.text("title")))
            written = self.parts.written_out(fields.items("steps", needed=True))
            steps += (self.step(each, stages[-1].name) for each in written)
            fields.nothing_else()
        return tuple(stages), tuple(steps)

    def step(self, node: Node, stage: str) -> Step:
        """One step."""
        fields = Fields(self.problems, node)
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

    def witness(self, fields: Fields, kind: str) -> str:
        """The role of a second person, which only some kinds of step may ask for."""
        if "witness" in fields.left and kind not in WITNESSED:
            fields.complain(
                fields.where("witness"),
                N_("`witness` belongs to a step of kind {kinds}, and this one is {kind}"),
                kinds=", ".join(WITNESSED),
                kind=kind,
            )
        return fields.text("witness", "", ("", *ROLES))

    def keys_fit(self, fields: Fields, kind: str) -> None:
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

    def numbers_fit(self, step: Step, fields: Fields) -> None:
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

    def caution(self, node: Node, parent: Fields) -> Caution:
        """A hazard and what to do about it."""
        fields = Fields(self.problems, node, parent.step)
        made = Caution(fields.text("hazard"), fields.text("action"))
        fields.nothing_else()
        return made

    def branch(self, node: Node, parent: Fields) -> Branch:
        """A condition and the step it leads to."""
        fields = Fields(self.problems, node, parent.step)
        made = Branch(fields.one_condition("if"), fields.text("to"), node.place)
        fields.nothing_else()
        return made

    def check(self, node: Node, parent: Fields) -> Check:
        """One line of a gate: the hazard and the way to look are never left out."""
        fields = Fields(self.problems, node, parent.step)
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
