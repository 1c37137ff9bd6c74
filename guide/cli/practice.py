"""`spindleside practice`: the simulated chuck, its lessons, and the debrief of a practice setup."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import click

from guide.cli.output import emit
from guide.cli.places import journal_option, json_option, reading, settings
from guide.plain import N_

if TYPE_CHECKING:
    from guide.practice.debrief import Debrief


@click.command()
@click.option("--lesson", metavar="N|NAME", help="A lesson by its number or name; see --list.")
@click.option("--seed", type=click.IntRange(1), help="Draw the chuck from this seed.")
@click.option("--unit", type=click.Choice(["in", "mm"]), help="The unit that the dial is read in.")
@click.option("--list", "listed", is_flag=True, help="List the lessons and open nothing.")
@click.option("--debrief", "setup", metavar="SETUP", help="Tell how a practice setup went.")
@journal_option
@json_option
@click.pass_context
def practice(
    ctx: click.Context,
    lesson: str | None,
    seed: int | None,
    unit: str | None,
    listed: bool,
    setup: str | None,
    journal: str | None,
    as_json: bool,
) -> None:
    """Practise on a simulated chuck, bar, spindle and dial: the same sheet, the same gates.

    Without --lesson or --seed a page lists the lessons. The same seed draws the same chuck. Every
    record of it is marked as practice for ever.

    \b
    Example:
      spindleside practice --lesson half-difference
      spindleside practice --seed 12345 --unit mm
    """
    if listed:
        lessons = list(_lessons())
        emit({"lessons": lessons}, as_json, _listed(lessons))
    elif setup is not None:
        _tell(setup, journal, as_json)
    else:
        _refuse_unknown(lesson)
        from guide.cli.start import on_the_screens

        ctx.exit(on_the_screens(journal, practice=_wanted(lesson, seed, unit)))


def _refuse_unknown(lesson: str | None) -> None:
    """A lesson that is not there is refused before any screen opens."""
    if lesson is not None:
        from guide.practice.lessons import lesson as found

        found(lesson)


def _wanted(lesson: str | None, seed: int | None, unit: str | None) -> str:
    """Lesson, seed and unit behind each other, as the screens take them."""
    from guide.practice.lesson import DRAWN

    name = lesson or (DRAWN if seed else "")
    return ";".join((name, str(seed or ""), unit or ""))


def _lessons() -> Iterator[dict[str, Any]]:
    """Every lesson as JSON keys, with nothing of what it hides."""
    from guide.practice.lessons import LESSONS

    for number, each in enumerate(LESSONS, start=1):
        yield {
            "lesson": number,
            "name": each.name,
            "title": each.title,
            "learn": each.learn,
            "unit": each.unit,
            "rounds": each.rounds,
            "readings": each.readings,
        }


def _listed(lessons: list[dict[str, Any]]) -> Iterator[str]:
    """A lesson in two lines."""
    from guide.present.words import say
    from guide.settings import from_environment

    language = from_environment().language
    for each in lessons:
        yield f"{each['lesson']:>3}  {each['name']:<16} {say(each['title'], language)}"
        yield f"     {'':<16} {say(each['learn'], language)}"


def _tell(setup: str, journal: str | None, as_json: bool) -> None:
    """The debrief of a practice setup, from its journal."""
    from guide.practice.debrief import debrief
    from guide.walk.setup import replayed

    here = settings(journal)
    with reading(here) as store:
        one = debrief(replayed(store, setup))
    emit(_answer(one), as_json, _lines(one, here.language))


def _answer(one: Debrief) -> dict[str, Any]:
    """The debrief as JSON keys; lengths in the dial's unit."""
    dial = one.dial
    return {
        "setup": one.setup,
        "mode": "practice",
        "lesson": one.lesson,
        "seed": one.seed,
        "place": one.place,
        "unit": dial.unit,
        "rounds": one.rounds,
        "moves": one.moves,
        "readings": one.readings,
        "best": {"rounds": one.best.rounds, "moves": one.best.moves,
                 "readings": one.best.readings},
        "good": {"rounds": one.good_rounds, "readings": one.good_readings},
        "runout": round(dial.of_inches(one.runout), 6),
        "tolerance": round(dial.of_inches(one.tolerance), 6),
        "right": one.reach.right,
        "flag": one.reach.flag or None,
        "decisions": [
            {"event": each.sequence, "decision": each.decision, "right": each.right,
             "why": each.why.format_map(dict(each.values)),
             "runout": round(dial.of_inches(each.runout), 6)}
            for each in one.decisions
        ],
        "misread": [
            {"event": each.sequence, "angle": each.angle, "typed": each.typed,
             "shown": each.shown}
            for each in one.misread
        ],
        "elsewhere": one.elsewhere,
        "taken_across_zero": one.rolled,
        "bench": dict(one.counts),
        "hints": one.hints,
    }  # fmt: skip


def _lines(one: Debrief, language: str) -> Iterator[str]:
    """The debrief as a person reads it, with a small drawing."""
    from guide.practice.path import path
    from guide.practice.telling import title, told
    from guide.present.canvas import PLAIN, text_of
    from guide.present.labels import MODE
    from guide.present.words import say

    yield f"! {say(MODE['practice'], language)} · {one.setup}"
    yield title(one, language)
    for heading, lines in told(one, language):
        yield heading
        for sign, words in lines:
            yield f"  {sign or '·'} {words}"
    yield say(N_("Where the middle of the jaws was, in order from 0:"), language)
    yield from (each.rstrip() for each in text_of(path(one.path, one.tolerance / 2, PLAIN)))
