"""The shop's equipment: a list, and a page of each thing with what can be done to it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from textual.widget import Widget

from guide.equipment.belongs import CHUCK, INDICATOR, KINDS
from guide.equipment.equipment import By, Equipment
from guide.equipment.register import Register, Thing
from guide.front.desk import Desk
from guide.front.due import today_here
from guide.front.opening import now
from guide.front.signing_words import wrong_before
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.plain import N_
from guide.present.equipment import KIND, calibration, of_thing
from guide.present.visible import visible
from guide.screens.equipment_asks import about_calibration, about_facts, facts_of
from guide.screens.page import TILE, Page, TileGrid, numbered, quiet
from guide.screens.people import Ask, AskScreen, person
from guide.screens.signing import Sign, signing
from guide.screens.tongue import language, say
from guide.screens.widgets.notice import Notice
from guide.screens.widgets.press import Press

ADD = {
    "lathe": N_("Add a lathe"),
    "chuck": N_("Add a chuck"),
    "indicator": N_("Add an indicator"),
    "bar": N_("Add a test bar"),
}
KEPT = N_("It is offered where a procedure asks for it, and confirmed there each time.")

Act = Callable[[Mapping[str, str], By], object]
"""Enters one change with the answers, by somebody."""
WHOLE_LINE = 70
"""Columns for name, kind and calibration in one line."""
GONE = N_("It is offered no more; nothing is deleted, and its name stays taken.")


class Shop:
    """The equipment of the journal, and who may change it."""

    def __init__(self, desk: Desk, store: Store) -> None:
        self.desk, self.equipment = desk, Equipment(store)

    @property
    def register(self) -> Register:
        """All of it as it is now."""
        return self.equipment.register()

    def signs(self) -> bool:
        """Whether people sign on here."""
        return self.desk.roster.rules.sign_on

    def asks(self) -> tuple[Ask, ...]:
        """Who does it."""
        return person(self.desk.names(), self.signs())

    def sign(self) -> Sign | None:
        """How somebody signs on here; nothing where nobody signs."""
        return self.desk.signed_on if self.signs() else None


class Rows(Page[None]):
    """Tiles and lines about the shop's equipment, written anew after each change."""

    def __init__(self, shop: Shop) -> None:
        super().__init__()
        self.shop = shop

    async def on_mount(self) -> None:
        """Everything as it is."""
        await self.fill()

    async def fill(self) -> None:
        """The lines afresh, and the focus where it was."""
        rows, held = self.query_one("#rows"), getattr(self.focused, "name", None)
        await rows.remove_children()
        await rows.mount(*self.lines())
        for each in self._held(held):
            each.focus()
        self.query_one(Notice).tell(wrong_before(self.shop.desk.told_once()))

    def _held(self, name: str | None) -> list[Press]:
        """The line of that name, or else the first; none where there is none."""
        lines = list(self.query("#rows Press").results(Press))
        return ([each for each in lines if each.name == name] or lines)[:1]

    def lines(self) -> Iterator[Widget]:
        """What stands on the page."""
        yield from ()

    async def picked(self, name: str) -> None:
        """Do what the tile says."""
        self.run_worker(self.do(name), group="equipment", exclusive=True)

    async def do(self, name: str) -> None:
        """What a line does."""

    async def ask(
        self,
        title: str,
        told: str,
        asks: tuple[Ask, ...],
        act: Act,
    ) -> bool:
        """Ask, and do it; whether it was done."""

        def enter(answers: Mapping[str, str], hand: Hand | None) -> None:
            act(answers, hand or answers["person"])

        attempt = signing(self.shop.sign(), enter)
        window = AskScreen(title, told, (*asks, *self.shop.asks()), attempt)
        done = await self.app.push_screen_wait(window)
        await self.fill()
        return done is not None


class EquipmentPage(Rows):
    """Everything in use, kind by kind, and what can be added."""

    title_text = N_("Equipment")

    def __init__(self, desk: Desk, store: Store) -> None:
        super().__init__(Shop(desk, store))

    def lines(self) -> Iterator[Widget]:
        """Everything in use, then the four kinds to add, then what is retired."""
        register = self.shop.register
        kept = [thing for kind in KINDS for thing in register.of(kind)]
        tiles = {f"thing:{each.kind}:{each.name}": _in_a_line(each) for each in kept}
        tiles |= {f"add:{kind}": say(words) for kind, words in ADD.items()}
        if not kept:
            yield quiet(say(N_("No equipment is kept here yet.")))
        yield _tiles(tiles, WHOLE_LINE)
        gone = [each for each in register.things.values() if not each.active]
        if gone:
            yield quiet("\n".join(("", say(N_("Retired:")), *map(_in_a_line, gone))))

    async def do(self, name: str) -> None:
        """The page of a thing, or the window that adds one."""
        what, kind, called = (*name.split(":", 2), "")[:3]
        if what == "thing":
            await self.app.push_screen_wait(ThingPage(self.shop, kind, called))
            await self.fill()
            return
        asks = (Ask("name", N_("Its name, as this shop calls it:")), *about_facts(kind, {}))

        def act(told: Mapping[str, str], by: By) -> object:
            facts = {name: each for name, each in facts_of(kind, told).items() if each}
            return self.shop.equipment.add(by, kind, told["name"], facts, now())

        await self.ask(ADD[kind], KEPT, asks, act)


class ThingPage(Rows):
    """One thing: what is known of it, and what can be done."""

    def __init__(self, shop: Shop, kind: str, name: str) -> None:
        super().__init__(shop)
        self.kind, self.called = kind, name

    def title_line(self) -> str:
        """What it is."""
        return visible(self.called)

    @property
    def thing(self) -> Thing:
        """It, as it is now."""
        return self.shop.register.find(self.kind, self.called)

    def lines(self) -> Iterator[Widget]:
        """What is known, then what can be done."""
        known = "\n".join(of_thing(self.thing, today_here(), language()))
        yield quiet(f"{known}\n")
        if self.thing.active:
            yield _tiles({name: say(words) for name, words in self._doings().items()})

    def _doings(self) -> dict[str, str]:
        """What can be done to a thing of this kind."""
        doings = {"change": N_("Change what is known of it")}
        if self.kind == INDICATOR:
            doings["calibrate"] = N_("It was calibrated")
        if self.kind == CHUCK:
            doings["voided"] = N_("Something happened to it: its result counts no more")
        return doings | {"retire": N_("Retire it")}

    async def do(self, name: str) -> None:
        """One change, by the window that asks for it."""
        shop, kind, called = self.shop.equipment, self.kind, self.called
        before = dict(self.thing.facts)

        def change(told: Mapping[str, str], by: By) -> object:
            facts = {name: each for name, each in facts_of(kind, told).items()
                     if each != before.get(name, "")}  # fmt: skip
            return shop.change(by, kind, called, facts, now())

        def calibrate(told: Mapping[str, str], by: By) -> object:
            asked = {name: told[name] for name in ("day", "due", "certificate", "limit")}
            return shop.calibrate(by, called, now(), **asked)

        ways: dict[str, tuple[str, tuple[Ask, ...], Act]] = {
            "change": (KEPT, about_facts(kind, before), change),
            "calibrate": (N_("From its certificate, or the shop's own check."),
                          about_calibration(), calibrate),
            "voided": (N_("It is then to be looked at again at once."),
                       (Ask("why", N_("What happened?")),),
                       lambda told, by: shop.voided(by, called, told["why"], now())),
            "retire": (GONE, (), lambda told, by: shop.retire(by, kind, called, now())),
        }  # fmt: skip
        text, asks, act = ways[name]
        if await self.ask(self._doings()[name], text, asks, act) and name == "retire":
            self.dismiss(None)


def _tiles(words: Mapping[str, str], least: int = TILE) -> TileGrid:
    """A tile for each name, with its number and words."""
    listed = enumerate(words.items(), 1)
    return TileGrid(*(Press(name, numbered(n, each)) for n, (name, each) in listed),
                    least=least)  # fmt: skip


def _in_a_line(thing: Thing) -> str:
    """Name, kind, and how its calibration stands."""
    told = (
        visible(thing.name),
        say(KIND[thing.kind]),
        calibration(thing, today_here(), language()),
    )
    return " · ".join(filter(None, told))
