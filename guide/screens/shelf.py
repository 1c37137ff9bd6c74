"""What stands on the start page: read from the journal and the procedures, never kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.journal.store import Store
from guide.journal.summary import Summary
from guide.plain import N_, Refusal
from guide.present.labels import MODE, PLACE
from guide.present.visible import visible
from guide.procedure.shelf import files, find
from guide.screens.tongue import say
from guide.settings import Settings


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the start page: `name` is what it opens, such as `resume:SETUP`."""

    name: str
    label: str


STRAIGHT = "quick-centring"
"""The procedure that goes straight to the dial; it stands at the top by itself."""
CENTRE_NOW = N_("Centre a bar or a workpiece now")

Section = tuple[str, str, list[Row]]
"""Title, what stands there when there is nothing, rows."""


def summaries(settings: Settings) -> tuple[Summary, ...]:
    """Every setup of the journal; none where there is no journal yet."""
    if not settings.journal_file.exists():
        return ()
    with Store.read(settings.journal_file) as store:
        return store.setups()


def sections(settings: Settings) -> Iterator[Section]:
    """The parts of the page, what is wanted at once first."""
    told = summaries(settings)
    real = [each for each in told if each.opening.get("mode") != "rehearsal"]
    running = [each for each in real if not _ended(each)]
    yield N_("Straight to the dial"), "", [Row(f"begin:{STRAIGHT}", say(CENTRE_NOW))]
    yield N_("Go on with an open setup"), N_("None is open."), [_open(each) for each in running]
    yield N_("Begin a new setup"), N_("No procedure is installed."), list(_procedures())
    practise = Row("practice:", say(N_("Practise on a simulated chuck")))
    yield N_("Practise without a lathe"), "", [practise]
    yield N_("Work something out"), "", [Row("calculators:", say(N_("Shop calculators")))]
    ended = [each for each in told if _ended(each)]
    nothing = N_("No record yet: a setup that ends stands here.")
    yield N_("Read a record"), nothing, [_record(each) for each in ended]


def _ended(each: Summary) -> bool:
    """Whether a setup has ended."""
    return "ends" in each.closing


def _open(each: Summary) -> Row:
    """An open setup."""
    words = say(N_("{lathe} · {procedure} · last {person}, {at}"), **_told(each))
    return Row(f"resume:{each.setup}", f"{words}{_mode(each)}")


def _record(each: Summary) -> Row:
    """An ended one."""
    ended = say(PLACE.get(str(each.closing.get("ends")), ""))
    words = say(N_("{lathe} · {procedure} · {person}, {at}"), **_told(each))
    return Row(f"record:{each.setup}", f"{words} · {ended}{_mode(each)}")


def _told(each: Summary) -> dict[str, str]:
    """Lathe, procedure, person and day of a setup."""
    facts = each.opening.get("facts", {})
    return {
        "lathe": visible(facts.get("lathe", "")),
        "procedure": visible(each.opening.get("procedure", "")),
        "person": visible(each.last_by),
        "at": each.last_at[:16].replace("T", " "),
    }


def _mode(each: Summary) -> str:
    """The mark of what is not real."""
    mode = str(each.opening.get("mode", "real"))
    return "" if mode == "real" else f" · {say(MODE.get(mode, mode.upper()))}"


def _procedures() -> Iterator[Row]:
    """Every shipped procedure by its title; one that cannot be read says so."""
    for path in files():
        if path.stem == STRAIGHT:
            continue
        try:
            yield Row(f"begin:{path.stem}", visible(find(path.stem).title))
        except Refusal as refusal:
            yield Row(f"broken:{path.stem}", f"{path.stem}: {visible(refusal)}")


def people_and_lathes(settings: Settings) -> tuple[list[str], list[str]]:
    """Names used before, the latest first."""
    told = summaries(settings)
    people = dict.fromkeys(name for each in told for name in (each.last_by, each.opened_by) if name)
    lathes = dict.fromkeys(
        str(each.opening.get("facts", {}).get("lathe", ""))
        for each in told
        if each.opening.get("mode") == "real"
    )
    return list(people), [each for each in lathes if each]
