"""People on the screens: first use, PINs, taking over, the page of people; by keys and by mouse."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from threading import current_thread, main_thread
from typing import Any

import pytest

from guide.journal import keys
from guide.journal.store import Store
from guide.people.people import People
from guide.people.roster import Roster
from guide.plain import NotAllowed
from guide.screens.people import AskScreen
from guide.screens.people_page import ABOUT, ChangeScreen, PeoplePage
from guide.screens.record import RecordScreen
from guide.screens.sheet import SetupSheet
from guide.screens.signing import FirstUse, SignedOut
from guide.screens.start import StartPage
from guide.screens.steps.besides import EndForm
from guide.screens.steps.making_sure import LookForm
from guide.screens.steps.task import TaskForm
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.notice import Notice


def people_of(journal: Path) -> Roster:
    """Everybody as the journal has them."""
    with Store.read(journal) as store:
        return People(store).roster()


async def people_page(at: Any) -> PeoplePage:
    """The page of people, from the start page."""
    await at.pilot.pause()
    await at.pick(await at.row("people:"))
    page = await at.until(PeoplePage)
    assert isinstance(page, PeoplePage)
    return page


async def change(at: Any, what: str, **told: str) -> None:
    """One change on the page of people."""
    await at.pick(await at.row(what))
    await at.until(ChangeScreen)
    await at.fill(**told)


async def test_the_first_person_is_a_supervisor_and_signs(
    opened, each_way, journal: Path, sound, pin
) -> None:
    """Asked once, before the first setup; every event holds the key of who acts."""
    async with opened(each_way, first_use=True, typed_at="terminal") as at:
        await at.pilot.pause()
        await at.pick(await at.row("begin:chuck-removal"))
        await at.until(FirstUse)
        await at.fill(way="on", person="A. Sample", pin=pin, again=pin)
        await at.until(AskScreen)
        await at.fill(pin=pin, lathe="Lathe 2")
        sheet = await at.until(SetupSheet)
        assert "NOT SIGNED" not in sheet._head().plain
    (opening,) = sound()
    person = people_of(journal).find("A. Sample")
    assert (opening.key, person.role) == (person.key, "supervisor")


async def settled(at, person: str) -> None:
    """At the very first use somebody says that they work alone; then a setup is to be begun."""
    await at.pilot.pause()
    await at.pick(await at.row("begin:chuck-removal"))
    await at.until(FirstUse)
    await at.fill(way="off", person=person)
    await at.until(AskScreen)


async def test_somebody_alone_signs_nothing(opened, quick, journal: Path, sound) -> None:
    """One answer and a name; no PIN is asked there or at the setup."""
    async with opened(quick, first_use=True) as at:
        await settled(at, "A. Sample")
        assert not at.app.screen.query("UnseenLine")
        await at.fill(person="A. Sample", lathe="Lathe 2")
        sheet = await at.until(SetupSheet)
        assert "NOT SIGNED" in sheet._head().plain
    (opening,) = sound()
    assert (opening.key, opening.data["sign_on"]) == ("", "off")


async def test_whoever_works_alone_types_their_name_once(
    opened, each_way, journal: Path, sound
) -> None:
    """At the very first use it stands at the setup already, and the lathe is asked for."""
    async with opened(each_way, first_use=True) as at:
        await settled(at, "A. Sample")
        assert at._line("person").value == "A. Sample"
        assert at._line("lathe") in at.app.focused.ancestors
        await at.fill(lathe="Lathe 2")
        await at.until(SetupSheet)
    (opening,) = sound()
    assert (opening.person, opening.data["facts"]["lathe"]) == ("A. Sample", "Lathe 2")


async def test_the_name_that_stands_there_may_be_anothers(opened, quick, sound) -> None:
    """Who settled how people work here need not be who begins; the record has who begins."""
    async with opened(quick, first_use=True) as at:
        await settled(at, "A. Sample")
        await at.fill(person="B. Sample", lathe="Lathe 2")
        await at.until(SetupSheet)
    (opening,) = sound()
    assert opening.person == "B. Sample"


async def test_the_number_of_a_tile_is_nobodys_name(opened, each_way, journal: Path, sound) -> None:
    """Typed on the line below the tiles by whoever went past them, it means that tile."""
    async with opened(each_way, first_use=True) as at:
        await settled(at, "2")
        await at.fill(person="1", lathe="Lathe 2")
        await at.until(SetupSheet)
    (opening,) = sound()
    assert opening.person == "Person 1"


async def test_every_page_of_an_unsigned_setup_says_so(opened, quick, small) -> None:
    """From the first page to the end, at 80 columns, and on its record afterwards."""
    async with opened(quick, procedure=small, typed_at="terminal") as at:
        await at.named()
        for _ in range(4):
            assert "NOT SIGNED" in first_line(at)
            await at.page()
        at.sheet.enter("abandon", {"why": "an invented reason"})
        await at.settle()
        assert isinstance(at.form, EndForm)
        assert "NOT SIGNED" in first_line(at)
        name = at.sheet.state.setup
        await at.press("leave")
        await at.until(StartPage)
        await at.pick(await at.row(f"record:{name}"))
        await at.until(RecordScreen)
        assert "NOT SIGNED" in first_line(at)


def first_line(at: Any) -> str:
    """The uppermost line on the screen."""
    return str(at.app.screen._compositor.render_strips()[0].text)


async def test_two_pins_that_differ_make_nobody(opened, keyboard, journal: Path, pin) -> None:
    """One sentence, and both can be typed again; what else was typed stands there."""
    async with opened(keyboard, first_use=True) as at:
        await at.pilot.pause()
        await at.pick(await at.row("people:"))
        await at.until(FirstUse)
        await at.fill(way="on", person="A. Sample", pin=pin, again="another one")
        assert "not the same" in at.complaint
        assert at._line("person").value == "A. Sample"
        await at.fill(pin="123456", again="123456")
        assert "guessed first" in at.complaint
        assert not people_of(journal).begun
        await at.fill(pin=pin, again=pin)
        await at.until(PeoplePage)
    assert people_of(journal).begun


async def test_a_wrong_pin_is_written_down_and_the_button_waits(
    opened, keyboard, small, shop, journal: Path, sound, monkeypatch, pin
) -> None:
    """The seconds count down on the button; the lathe that was typed stands there still."""
    shop()
    delays = [900]
    monkeypatch.setattr("guide.people.waiting.delay_after", lambda wrong: delays[0] * wrong)
    async with opened(keyboard, procedure=small, typed_at="terminal") as at:
        await at.until(AskScreen)
        await at.fill(person="A. Sample", pin="wrong one", lathe="Lathe 2")
        assert "That is not the PIN of A. Sample" in at.complaint
        assert at.button("yes").label in ("Wait 900 s", "Wait 899 s")
        assert (at._line("pin").value, at._line("lathe").value) == ("", "Lathe 2")
        await at.fill(pin=pin)
        assert isinstance(at.app.screen, AskScreen)
        assert people_of(journal).tries["a. sample"].count == 1
        await at.choose(at.app.screen.line("person"), "C. Sample")
        await at.pilot.pause(0.6)
        assert at.button("yes").label == "Go on   ⏎"
        await at.choose(at.app.screen.line("person"), "A. Sample")
        delays[0] = 0
        await at.pilot.pause(0.6)
        await at.fill(pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        told = str(at.sheet.query_one(Notice).render())
        assert "a wrong PIN was tried for A. Sample, on " in told
    assert [each.person for each in sound()] == ["A. Sample"]
    assert people_of(journal).tries == {}


async def test_whoever_signs_on_is_told_of_wrong_pins_before_once(
    opened, quick, small, shop, journal: Path, monkeypatch, pin
) -> None:
    """How many and when the last, by the local clock; the next page says it no more."""
    shop()
    with Store(journal) as store:
        for at in ("2030-02-01T06:00:00.000Z", "2030-02-01T06:10:00.000Z"):
            with pytest.raises(NotAllowed):
                People(store).sign_on("A. Sample", "wrong one", at)
    monkeypatch.setattr("guide.people.waiting.delay_after", lambda wrong: 0)
    when = datetime(2030, 2, 1, 6, 10, tzinfo=UTC).astimezone().strftime("%Y-%m-%d %H:%M")
    async with opened(quick, procedure=small) as at:
        await at.begun()
        notice = at.sheet.query_one(Notice)
        assert f"2 wrong PINs were tried for A. Sample, the last on {when}." in str(notice.render())
        assert notice.display
        await at.page()
        assert not notice.display
        at.sheet.action_give("sign_out")
        await at.until(SignedOut)
        await at.fill(person="A. Sample", pin=pin)
        await at.until(SetupSheet)
        assert not notice.display


async def test_the_only_one_on_record_is_told_who_adds_others(
    opened, quick, small, journal: Path
) -> None:
    """Nobody can take over: no window with nobody to choose."""
    with Store(journal) as store:
        People(store).first("A. Sample", "four tin horses", "2030-01-31T07:05:00.000Z")
    async with opened(quick, procedure=small) as at:
        await at.begun()
        at.sheet.action_give("take_over")
        await at.pilot.pause()
        assert isinstance(at.app.screen, SetupSheet)
        assert "A supervisor adds people" in at.complaint


async def test_a_pin_is_stretched_beside_the_screen(
    opened, quick, small, shop, monkeypatch
) -> None:
    """In a thread of its own, so that the screen lives meanwhile."""
    shop()
    threads: list[object] = []
    unsealed = keys.unsealed

    def watched(seal: str, pin: str) -> bytes | None:
        threads.append(current_thread())
        return unsealed(seal, pin)

    monkeypatch.setattr("guide.journal.keys.unsealed", watched)
    async with opened(quick, procedure=small) as at:
        await at.begun()
        assert threads
        assert main_thread() not in threads
        at.sheet.setup.hands["A. Sample"].sign("what it signs is asked after in the first thread")


async def test_a_refused_lathe_loses_nothing_that_was_typed(
    opened, quick, small, shop, pin
) -> None:
    """A lathe that has a setup open: the window stays as it is, with the PIN too."""
    shop()
    async with opened(quick, procedure=small) as at:
        await at.begun()
        at.sheet.close()
        await at.until(StartPage)
        await at.pick(await at.row("begin:chuck-removal"))
        await at.until(AskScreen)
        await at.fill(person="C. Sample", pin=pin, lathe="Lathe 2")
        assert "has a setup open" in at.complaint
        assert (at._line("pin").value, at._line("lathe").value) == (pin, "Lathe 2")


async def test_a_take_over_is_signed_by_who_takes_over(
    opened, mouse, small, shop, journal: Path, sound, pin
) -> None:
    """With the new person's PIN, and making sure where anything was known."""
    shop()
    async with opened(mouse, procedure=small, typed_at="terminal") as at:
        await at.begun()
        await at.to(TaskForm)
        at.sheet.action_give("take_over")
        window = await at.until(AskScreen)
        assert [name for name, _ in window.line("person").options] == ["B. Sample", "C. Sample"]
        await at.fill(person="B. Sample", pin=pin)
        await at.until(SetupSheet)
        await at.settle()
        assert isinstance(at.form, LookForm)
        assert set(at.sheet.setup.hands) == {"B. Sample"}
    last = sound()[-1]
    assert (last.kind, last.person, last.data["role"]) == ("take-over", "B. Sample", "apprentice")
    assert last.key == people_of(journal).find("B. Sample").key


async def test_people_are_added_changed_and_retired_on_their_page(
    opened, quick, shop, journal: Path, pin
) -> None:
    """By a supervisor with a PIN; the list shows it at once; nobody is taken off it."""
    shop()
    by = {"by_pin": pin}
    async with opened(quick) as at:
        await people_page(at)
        await change(at, "add", name="D. Sample", role="machinist", pin=pin, again=pin, **by)
        await at.until(PeoplePage)
        assert "D. Sample, machinist" in at.text("#people")
        await change(at, "role", name="D. Sample", role="supervisor", **by)
        await at.until(PeoplePage)
        assert "D. Sample, supervisor" in at.text("#people")
        told = {"pin": "other words", "again": "other words"}
        await change(at, "new-key", name="B. Sample", **told, by="D. Sample", **by)
        await at.until(PeoplePage)
        await change(
            at, "new-pin", name="C. Sample", by_pin=pin, pin="more words", again="more words"
        )
        await at.until(PeoplePage)
        await change(at, "retire", name="B. Sample", by="A. Sample", **by)
        await at.until(PeoplePage)
        assert "B. Sample, apprentice, since 2030-01-31, retired" in at.text("#people")
    roster = people_of(journal)
    assert [each.name for each in roster.active] == ["A. Sample", "C. Sample", "D. Sample"]
    assert len(roster.find("B. Sample").keys) == 2
    with Store(journal) as store:
        assert People(store).sign_on("C. Sample", "more words", "2030-02-01T00:00:00.000Z").key


async def test_the_rules_are_changed_and_shown_in_words(
    opened, keyboard, shop, journal: Path, pin
) -> None:
    """As they stand they stand there already; what cannot be a rule is one sentence."""
    shop(witness={"gate": "machinist"})
    async with opened(keyboard) as at:
        await people_page(at)
        await change(at, "rules", idle="soon", by_pin=pin)
        assert "whole number" in at.complaint
        await at.fill(idle="7", verdict="supervisor")
        await at.until(PeoplePage)
        assert "Signed out after 7 min without a key or a click." in at.text("#people")
        assert "A second person at each gate: machinist or above." in at.text("#people")
    rules = people_of(journal).rules
    assert (rules.idle_minutes, rules.witness) == (
        7, {"gate": "machinist", "verdict": "supervisor"},
    )  # fmt: skip


async def test_the_last_supervisor_stays(opened, quick, shop, journal: Path, pin) -> None:
    """The sentence stands in the window; everybody is still there."""
    shop()
    async with opened(quick) as at:
        await people_page(at)
        await change(at, "retire", name="A. Sample", by_pin=pin)
        assert "the last supervisor" in at.complaint
    assert len(people_of(journal).active) == 3


async def test_whoever_works_alone_can_begin_to_sign_on(opened, quick, journal: Path, pin) -> None:
    """The one thing that can be done there: the first person, and from then on all sign on."""
    async with opened(quick) as at:
        page = await people_page(at)
        assert [each.name for each in page.query("#rows Press")] == ["first"]
        await change(at, "first", name="A. Sample", pin=pin, again=pin)
        await at.until(PeoplePage)
        assert [each.name for each in page.query("#rows Press")] == list(ABOUT)
    roster = people_of(journal)
    assert (roster.find("A. Sample").role, roster.rules.sign_on) == ("supervisor", True)


async def test_every_window_has_its_buttons_in_sight_at_the_smallest_size(
    opened, keyboard, shop
) -> None:
    """First use and each change of people, at 80 × 24."""
    async with opened(keyboard, first_use=True) as at:
        await at.pilot.pause()
        await at.pick(await at.row("people:"))
        await at.until(FirstUse)
        await at.pilot.press("1")
        await at.pilot.pause()
        in_sight(at)
    shop(witness={"gate": "machinist"})
    async with opened(keyboard) as at:
        await people_page(at)
        for place in range(len(ABOUT)):
            await at.until(PeoplePage)
            await at.pilot.press(str(place + 1))
            await at.until(ChangeScreen)
            in_sight(at)
            await at.pilot.press("escape")


def in_sight(at: Any) -> None:
    """The buttons of the window stand wholly on the screen."""
    bar = at.app.screen.query_one(ActionBar)
    assert bar.region.bottom <= at.app.screen.query_one("#window").region.bottom - 1
    assert bar.region.height == 3
