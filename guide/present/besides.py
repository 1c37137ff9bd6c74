"""What happened besides the steps, and what was seen by looking, in a few words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from guide.plain import N_
from guide.present.labels import ROLE, SERVES_AS
from guide.present.questions import answers_to, asks
from guide.present.read_out import result
from guide.present.recorded import answered, doings, fact_named
from guide.present.seen import Seen
from guide.present.words import recorded, say, written
from guide.procedure.model import Procedure
from guide.walk.judged_anew import KEPT
from guide.walk.looking import ASKED
from guide.walk.world import as_dict, value

OLD_NEW = ("old", "new")
"""What a correction says of an answer."""


def look(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """What was seen: all of it the first time, later what was found other than recorded.

    The power may have been cut before the first time; nobody had looked at anything else.
    """
    found = each.entry.data.get("seen", {})
    if value(each.before.world, "seat") == "unknown":
        seen = {name: str(found.get(name, "unknown")) for name in ASKED}
        return "; ".join(_found(name, now, language) for name, now in seen.items()), ""
    differing = "; ".join(changes(each, language))
    return (differing or say(N_("all as recorded"), language)), (
        say(N_("changed from recorded"), language) if differing else ""
    )


def _found(name: str, value: str, language: str) -> str:
    """What was asked by looking, and what was seen."""
    return f"{say(asks(name), language)}: {say(answers_to(name, value), language)}"


def changes(each: Seen, language: str = "en") -> Iterator[str]:
    """Each thing that was seen other than recorded; what nobody had recorded is no change."""
    recorded = as_dict(each.before.world)
    for name, now in each.entry.data.get("seen", {}).items():
        if recorded[name] not in (now, "unknown"):
            yield say(
                N_("{name}: {now} (recorded {before})"),
                language,
                name=say(asks(name), language),
                now=say(answers_to(name, now), language),
                before=say(answers_to(name, recorded[name]), language),
            )


def why(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """A reason."""
    return recorded(each.entry.data.get("why", ""), language), ""


def taken_over(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Who hands over to whom."""
    names = {"before": each.before.person, "now": each.entry.person}
    return say(N_("{now} takes over from {before}"), language, **names), ""


def corrected(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """The old answer stays on the line beside the new one."""
    data = each.entry.data
    name = str(data.get("fact", ""))
    old, new = (answered(procedure.facts.get(name), data.get(key), language) for key in OLD_NEW)
    why_so = recorded(data.get("why", ""), language)
    anew = "; ".join(filter(None, (why_so, *_judged_anew(data, language))))
    return f"{fact_named(name, language)}: {old} → {new}", anew


def _judged_anew(data: Mapping[str, Any], language: str) -> Iterator[str]:
    """What readings come to since the answer they rest on was corrected."""
    for serves_as, figures in data.get(KEPT, {}).items():
        yield say(
            N_("judged anew, {reading}: {result}"),
            language,
            reading=say(SERVES_AS.get(serves_as, serves_as), language),
            result=result(figures, str(figures.get("unit", "")), language),
        )


def deviated(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """What was not done as written, why, and who allowed it."""
    data = each.entry.data
    allowed = data.get("allowed")
    who = second(allowed, language) if isinstance(allowed, Mapping) else ""
    said = N_("NOT DONE AS WRITTEN: {why}; allowed by {who}")
    return "", say(said, language, why=recorded(data.get("why", ""), language), who=who)


def second(told: Mapping[str, object], language: str) -> str:
    """The second person of an event, with the role where it was signed."""
    role = ROLE.get(str(told.get("role")))
    name = str(told.get("person", ""))
    return f"{name} ({say(role, language)})" if role else name


def again(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Which step."""
    name = str(each.entry.data.get("step", ""))
    step = procedure.by_name.get(name)
    return written(step.title, language) if step else name, ""


def made_safe(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """One action towards made safe, or the gate before it."""
    action = doings([each.entry.data.get("action", "")], language)
    if each.entry.kind == "acknowledge":
        return say(N_("gate before “{action}”"), language, action=action), ""
    return action, ""


def nothing(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """An event that took in nothing."""
    return "", ""
