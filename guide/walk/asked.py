"""What a procedure has to ask, because the program looks for it under a name of its own."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.procedure.model import Procedure, Step
from guide.procedure.problem import Problem, problem
from guide.walk.deciding import PLATE, TURNS_ON_THE_BAR
from guide.walk.flow import looks
from guide.walk.limit import TOLERANCE, limit_name

UNITS = frozenset({"in", "mm"})
ON_NOSE = ("on-nose", "chuck-kind", "plate")
"""Facts of which one says what a look is expected to find on the nose, or beside it."""
HAS_SCREWS = frozenset({"screw-count", "chuck-kind"})
"""Facts that say that something has adjusting screws, or jaws that are moved one by one."""
SCREWS = ("touch", "nip")
"""What is done to adjusting screws besides correcting."""
IN_JAWS = frozenset({"grip bar", "jaws tighten", "jaws shift", "read"})
"""Actions that make no sense on a bare nose, and that the table allows there all the same."""


def unasked(procedure: Procedure) -> Iterator[Problem]:
    """The unit of each reading, a limit that limits nothing, and what is on the nose."""
    yield from _without_unit(procedure)
    yield from _limits_of_nothing(procedure)
    yield from _on_a_bare_nose(procedure)
    yield from _judges_nothing(procedure)
    yield from _at_no_screw(procedure)


def _readings(procedure: Procedure) -> tuple[Step, ...]:
    """The steps that read a dial."""
    return tuple(step for step in procedure.steps if step.kind == "readings")


def _without_unit(procedure: Procedure) -> Iterator[Problem]:
    """A figure that nobody gave a unit would be taken for inches."""
    unit = procedure.facts.get("unit")
    if unit and not set(unit.closed) <= UNITS:
        yield problem(
            unit.place, N_("the fact {name} may only be {values}"), "unit",
            name="unit", values=", ".join(sorted(UNITS)),
        )  # fmt: skip
    asked = {name for step in procedure.steps for name in step.ask}
    for step in _readings(procedure)[:1]:
        if "unit" not in asked:
            yield problem(
                step.place,
                N_("nobody is asked for the fact `unit`: its figures would be taken for inches"),
                step.name,
            )


def _limits_of_nothing(procedure: Procedure) -> Iterator[Problem]:
    """A fact that is named like a limit, and that no reading is judged by."""
    limits = {limit_name(step.serves_as) for step in _readings(procedure)}
    for fact in procedure.facts.values():
        if limits and fact.name.endswith("-limit") and fact.name not in limits:
            yield problem(
                fact.place,
                N_("no reading is judged by the fact {name}; these would be: {names}"),
                fact.name,
                name=fact.name,
                names=", ".join(sorted({*limits, TOLERANCE})),
            )


def _on_a_bare_nose(procedure: Procedure) -> Iterator[Problem]:
    """Where nothing says what is on the nose, the walk is checked with nothing on it."""
    if any(name in procedure.facts for name in ON_NOSE) or not any(map(looks, procedure.steps)):
        return
    for step in procedure.steps:
        done = sorted({doing.action for doing in step.does} & IN_JAWS)
        if done:
            yield problem(
                step.place,
                N_(
                    "it does {actions}, and nobody is asked for the fact `on-nose` or"
                    " `chuck-kind`: a look is expected to find nothing on the nose"
                ),
                step.name,
                actions=", ".join(done),
            )
            return


def _judges_nothing(procedure: Procedure) -> Iterator[Problem]:
    """A verdict that offers `accept`, where nobody takes the reading that it would be judged by."""
    readings = _readings(procedure)
    served = {step.serves_as for step in readings}
    turns = served & {*TURNS_ON_THE_BAR} or {step.name for step in readings if step.take == "along"}
    for step in procedure.steps:
        place = step.places.get("decisions", step.place)
        if step.decisions == PLATE and "face-runout" not in served:
            yield problem(
                place,
                N_(
                    "`accept` and `stop` alone judge a plate by its `face-runout`, which nobody"
                    " reads: offer `another-turn` too where the latest turn is to be judged"
                ),
                step.name,
            )
        elif "accept" in step.decisions and step.decisions != PLATE and not turns:
            yield problem(
                place,
                N_(
                    "`accept` can never be chosen: nobody takes a reading that it is judged by,"
                    " with `take: along` or with one of these after `serves-as`: {names}"
                ),
                step.name,
                names=", ".join(TURNS_ON_THE_BAR),
            )


def _at_no_screw(procedure: Procedure) -> Iterator[Problem]:
    """A reading that is told as one at screw 1, 2 …, where nothing that has screws is moved."""
    moved = any(step.kind == "correction" or step.tighten in SCREWS for step in procedure.steps)
    if moved or HAS_SCREWS & procedure.facts.keys():
        return
    for step in _readings(procedure):
        if step.take == "pair":
            yield problem(
                step.places.get("take", step.place),
                N_(
                    "`take: pair` reads at an adjusting screw or a jaw, by its number, and nothing"
                    " here has any: ask for the fact `screw-count` or `chuck-kind`, or read with"
                    " `take: turn`"
                ),
                step.name,
            )
