"""What stands on the start page: read from the journal and the procedures, never kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from guide.equipment.belongs import LATHE
from guide.equipment.equipment import Equipment
from guide.equipment.register import known_as
from guide.journal.store import Store
from guide.journal.summary import Summary
from guide.journal.trouble import Earlier
from guide.plain import N_, Refusal
from guide.present.labels import MODE, PLACE
from guide.present.tongue import say, written
from guide.present.visible import visible
from guide.procedure.shelf import files, find, title_of
from guide.settings import Settings


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the start page: `name` is what it opens, such as `resume:SETUP`."""

    name: str
    label: str


STRAIGHT = "quick-centring"
"""The procedure that goes straight to the dial; it stands at the top by itself."""
USUAL = ("adjustable-chuck", "after-a-crash")
"""What else is begun from the start page itself: the first job, and what nobody may search for."""
RECHECK = "chuck-recheck"
"""The procedure that reads again what was trued: what was told then stands there."""
FIRST = N_("First time here? A walk of three minutes")
CENTRE_NOW = N_("Centre a bar or a workpiece now")
ANOTHER = N_("Another procedure: chuck, jaws, plate, spindle, tailstock, your own")

Section = tuple[str, str, list[Row]]
"""Title, what stands there when there is nothing, rows."""
SHOWN, LOOKED_BACK = 20, 50
"""Records that stand on the page, and setups from which names are offered, the latest first."""


@dataclass(frozen=True, slots=True)
class Glance:
    """What the journal says to the start page, without a look at every setup."""

    open: tuple[Summary, ...] = ()
    ended: tuple[Summary, ...] = ()
    due: tuple[Row, ...] = ()
    """What is to be looked at again."""
    titles: Mapping[str, str] = field(default_factory=dict)
    """Of each procedure that one of them was opened with its title, by the digest of its text."""
    amiss: str = ""
    """What is wrong with the list that all this should have been read from."""


AMISS = N_("The journal or its list of setups is damaged. Run spindleside verify.")


def glance(settings: Settings) -> Glance:
    """The setups that are open and the latest that have ended; nothing where no journal is yet."""
    if not Store.is_there(settings.journal_file):
        return Glance()
    from guide.front.due import due

    with _to_read(settings) as store:
        still_open, ended = store.open_setups(), store.ended_setups(SHOWN)
        titles = _titles(store, (*still_open, *ended))
        again = tuple(due(store))
        amiss = "" if store.list_was_sound() else say(AMISS)
        return Glance(still_open, ended, again, titles, amiss)


def _titles(store: Store, listed: Iterable[Summary]) -> dict[str, str]:
    """The title of each text that setups were opened with; none of one that is lost or spoilt."""
    titles = {}
    for name in {_text_of(each) for each in listed}:
        with suppress(Refusal):
            titles[name] = title_of(store.text(name))
    return titles


def _text_of(each: Summary) -> str:
    """The digest of the text that a setup was opened with."""
    return str(each.opening.get("procedure_text", ""))


def _to_read(settings: Settings) -> Store:
    """The journal, one of the first version brought forward: this page is where that is done."""
    try:
        return Store.read(settings.journal_file)
    except Earlier:
        Store(settings.journal_file).close()
        return Store.read(settings.journal_file)


def sections(told: Glance, begin: list[Row]) -> Iterator[Section]:
    """The parts of the page: what is due first, where anything is, then what is wanted at once."""
    running = [each for each in told.open if each.opening.get("mode") != "rehearsal"]
    if told.due:
        yield N_("To look at again"), "", list(told.due)
    first = Row("first:", say(FIRST))
    if running:
        yield N_("Go on with an open setup"), "", [_open(each, told) for each in running]
    yield N_("Begin at the lathe"), "", begin
    if first_is_told(told):
        yield N_("New here?"), "", [first]
    beside = [Row(name, say(words)) for name, words in BESIDE.items()]
    yield N_("Beside the lathe"), "", beside if first_is_told(told) else [*beside, first]
    nothing = N_("No record yet: a setup that ends stands here.")
    yield N_("Read a record"), nothing, [_record(each, told) for each in told.ended]


def first_is_told(told: Glance) -> bool:
    """Whether the walk for newcomers stands at the top: while there is no setup."""
    return not told.open and not told.ended


EACH_IS_WALKED = N_("Each is walked step by step and recorded under the names of those who sign.")
LAST_LONG = N_("What is kept from one setup to the next.")

BESIDE = {
    "practice:": N_("Practise on a simulated chuck"),
    "calculators:": N_("Shop calculators"),
    "more:shop": N_("The shop: chucks and when to look again, equipment, people, looks"),
}
"""What is done away from a setup."""
SHOP = {
    "history:": N_("Chucks: how each was found and left, and when to look again"),
    "equipment:": N_("Equipment: lathes, chucks, indicators, bars"),
    "people:": N_("People: who may sign, and the rules"),
    "settings:": N_("These screens: looks and language"),
}
"""What belongs to the shop as a whole."""


def behind(tile: str) -> Section:
    """What stands behind a tile of the start page that leads to more."""
    if tile == "procedures":
        return N_("Begin another procedure"), EACH_IS_WALKED, others_to_begin()
    return N_("The shop"), LAST_LONG, [Row(name, say(words)) for name, words in SHOP.items()]


def _open(each: Summary, told: Glance) -> Row:
    """An open setup."""
    words = say(N_("{lathe} · {procedure} · last {person}, {at}"), **_told(each, told))
    return Row(f"resume:{each.setup}", f"{words}{_mode(each)}")


def _record(each: Summary, told: Glance) -> Row:
    """An ended one."""
    ended = say(PLACE.get(str(each.closing.get("ends")), ""))
    words = say(N_("{lathe} · {procedure} · {person}, {at}"), **_told(each, told))
    return Row(f"record:{each.setup}", f"{words} · {ended}{_mode(each)}")


def _told(each: Summary, told: Glance) -> dict[str, str]:
    """Lathe, procedure by its title, person and day of a setup."""
    title = written(told.titles.get(_text_of(each), ""))
    facts = each.opening.get("facts", {})
    return {
        "lathe": visible(facts.get("lathe", "")),
        "procedure": visible(title or each.opening.get("procedure", "")),
        "person": visible(each.last_by),
        "at": each.last_at[:16].replace("T", " "),
    }


def _mode(each: Summary) -> str:
    """The mark of what is not real."""
    mode = str(each.opening.get("mode", "real"))
    return "" if mode == "real" else f" · {say(MODE.get(mode, mode.upper()))}"


def few_to_begin() -> list[Row]:
    """What is begun most, and the way to all the others: no more than have a number."""
    usual = [_procedure(path) for path in files() if path.stem in USUAL]
    return [_straight(), *usual, Row("more:procedures", say(ANOTHER))]


def all_to_begin() -> list[Row]:
    """Every procedure that can be begun."""
    return [*few_to_begin()[:-1], *others_to_begin()]


def others_to_begin() -> list[Row]:
    """Every procedure that the start page itself does not name."""
    named = (STRAIGHT, *USUAL)
    return [_procedure(path) for path in files() if path.stem not in named]


def _straight() -> Row:
    """The way straight to the dial."""
    return Row(f"begin:{STRAIGHT}", say(CENTRE_NOW))


def _procedure(path: Path) -> Row:
    """A procedure by its title; one that cannot be read says so."""
    try:
        return Row(f"begin:{path.stem}", visible(written(find(path.stem).title)))
    except Refusal as refusal:
        return Row(f"broken:{path.stem}", f"{path.stem}: {visible(refusal)}")


def people_and_lathes(settings: Settings) -> tuple[list[str], list[str]]:
    """Names used in the latest setups, the latest first, then the lathes that are kept."""
    if not Store.is_there(settings.journal_file):
        return [], []
    with Store.read(settings.journal_file) as store:
        last = (*store.open_setups(), *store.ended_setups(LOOKED_BACK))
        kept = _kept_lathes(store)
    told = sorted(last, key=lambda each: each.last_at, reverse=True)[:LOOKED_BACK]
    people = dict.fromkeys(name for each in told for name in (each.last_by, each.opened_by) if name)
    lathes = dict.fromkeys(
        str(each.opening.get("facts", {}).get("lathe", ""))
        for each in told
        if each.opening.get("mode") == "real"
    )
    known = {known_as(each) for each in lathes}
    more = [each for each in kept if known_as(each) not in known]
    return list(people), [*(each for each in lathes if each), *more]


def _kept_lathes(store: Store) -> list[str]:
    """The lathes of the equipment; none where it is damaged, which the start page says."""
    try:
        return [each.name for each in Equipment(store).register().of(LATHE)]
    except Refusal:
        return []
