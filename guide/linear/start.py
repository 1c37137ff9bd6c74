"""The start list in lines, and what each of its rows opens."""

from __future__ import annotations

from functools import cached_property

from guide.front.desk import Desk
from guide.front.opening import begun, gone_on, has_ended, is_signed_one, read
from guide.front.own_language import speak_as_set
from guide.front.revision import changed_since
from guide.front.shelf import Row, all_to_begin, glance, people_and_lathes, sections
from guide.front.signing_words import LATHE, PERSON
from guide.journal.holding import Hold
from guide.journal.store import Store
from guide.linear.ends import Back
from guide.linear.record import read_record
from guide.linear.signing import MOST, settle, who
from guide.linear.sitting import Sitting, now
from guide.linear.talk import Line, Talk
from guide.linear.walk import walk
from guide.people.hand import Hand
from guide.plain import N_, NotAllowed, Refusal
from guide.present.tongue import language, say
from guide.present.usual import LATHES
from guide.present.words import refused
from guide.records.of_setup import record_of
from guide.settings import Settings
from guide.walk.setup import Setup

OPENS = ("begin", "resume", "record")
"""What can be opened here; the rest has commands of its own."""
LEAVE = "0"
ELSEWHERE = N_(
    "People, equipment, chucks and calculators: the commands `spindleside people`, `equipment`,"
    " `history` and `calc`."
)
AT_THE_SCREENS = N_("A practice setup has a simulated dial that is drawn.")


class Start:
    """Opens setups and records of one journal."""

    def __init__(self, settings: Settings, talk: Talk, typed_at: str) -> None:
        self.settings, self.talk, self.typed_at = settings, talk, typed_at

    @cached_property
    def store(self) -> Store:
        """The journal, opened when it is first asked for more than the list."""
        return Store(self.settings.journal_file)

    @cached_property
    def desk(self) -> Desk:
        """Who may sign on here."""
        return Desk(self.store)

    def close(self) -> None:
        """The journal is closed with the program."""
        if "store" in vars(self):
            self.store.close()

    def offer(self) -> None:
        """Read the list out and open what is chosen, until it is left."""
        while True:
            rows = self._read_out()
            try:
                found = self.talk.answer(_which(rows))
            except Back:
                continue
            if found == LEAVE:
                return
            self._open(found, rows)

    def _read_out(self) -> list[Row]:
        """Every part of the list; what can be opened is numbered through."""
        told, rows = glance(self.settings), []
        self.talk.lines.tell()
        self.talk.lines.tell(told.amiss or say(N_("spindleside: a lathe setup step by step.")))
        for title, empty, listed in sections(told, all_to_begin()):
            shown = [each for each in listed if _may_be_told(each)]
            if shown or empty:
                self.talk.say(N_("{title}:"), title=say(title))
            for each in shown:
                if opens(each):
                    rows.append(each)
                    self.talk.lines.tell(f"{len(rows)}: {each.label}")
                else:
                    self.talk.lines.tell(each.label)
            if not listed and empty:
                self.talk.say(empty)
        self.talk.say(ELSEWHERE)
        return rows

    def _open(self, found: str, rows: list[Row]) -> None:
        """What a row stands for."""
        what, _, name = rows[int(found) - 1].name.partition(":")
        try:
            self.open(what, name)
        except Back:
            return
        except Refusal as refusal:
            self.talk.lines.tell(refused(refusal, language()))

    def open(self, what: str, name: str) -> None:
        """Begin a procedure, go on with a setup, or read a record; a Refusal or `Back` else."""
        {"begin": self.begin, "resume": self.resume, "record": self.record}[what](name)

    def begin(self, procedure: str) -> None:
        """Ask who and which lathe, then open a new setup and walk it."""
        first = settle(self.talk, self.desk, now())
        people, lathes = people_and_lathes(self.settings)
        rules = self.desk.roster.rules
        self.talk.say(N_("Everything is recorded under these names; a lathe has one open setup at"
                         " most."))  # fmt: skip
        names = self._known(people, rules.sign_on)
        person, hand = who(self.talk, self.desk, say(PERSON), names, rules.sign_on, first=first)
        usual = tuple(lathes[:MOST]) or tuple(say(each) for each in LATHES)
        lathe = self.talk.answer(Line("lathe", say(LATHE), usual=usual))
        self._begin(procedure, person, lathe, hand, people)

    def _begin(
        self, procedure: str, person: str, lathe: str, hand: Hand | None, people: list[str]
    ) -> None:
        """Open it, walk it, and go on with what it leads into."""
        witness = self.desk.roster.rules.witness
        opened = begun(self.store, procedure, person, lathe, self.typed_at, hand, witness)
        self._walk(*opened, people)

    def resume(self, setup: str) -> None:
        """Ask who, then go on; one that has ended is only read."""
        if has_ended(self.store, setup):
            self.record(setup)
            return
        if read(self.store, setup).state.opening.get("mode") == "practice":
            raise NotAllowed(AT_THE_SCREENS, N_("Go on with it there: spindleside resume."))
        people, _ = people_and_lathes(self.settings)
        signs = is_signed_one(self.store, setup)
        ask = say(N_("Who goes on with it?"))
        person, hand = who(self.talk, self.desk, ask, self._known(people, signs), signs)
        self._walk(*gone_on(self.store, setup, person, hand), people)

    def record(self, setup: str) -> None:
        """Read a record out."""
        told = record_of(read(self.store, setup), self.store, language())
        read_record(self.talk.lines, told, language())

    def _known(self, people: list[str], signs: bool) -> list[str]:
        """Names to offer, the latest used first; where people sign on, those who may."""
        if not signs:
            return people
        may = self.desk.names()
        return [*(each for each in people if each in may),
                *(each for each in may if each not in people)]  # fmt: skip

    def _walk(self, setup: Setup, hold: Hold, people: list[str]) -> None:
        """Until it is left; then let others have the setup, and go on with what it leads into."""
        at = Sitting(setup, self.store, self.desk, self.talk, people, self.settings)
        with hold:
            at.tell_wrong_pins()
            if told := changed_since(setup.procedure):
                at.talk.lines.tell(told)
            try:
                walk(at)
            finally:
                speak_as_set(self.settings)
        if at.onward and self.desk.roster.rules.sign_on:
            self.begin(at.onward)
        elif at.onward:
            lathe = str(at.state.facts["lathe"])
            self._begin(at.onward, at.state.person, lathe, None, people)


def opens(row: Row) -> bool:
    """Whether a row can be opened here."""
    return row.name.partition(":")[0] in OPENS


def _may_be_told(row: Row) -> bool:
    """Rows that open other pages of the screens are left out; what is due is said."""
    what, _, name = row.name.partition(":")
    return what in OPENS or what == "broken" or bool(name)


def _which(rows: list[Row]) -> Line:
    """The question which row."""
    numbers = [str(number) for number in range(len(rows) + 1)]
    odd = say(N_("Type a number from 0 to {last}."), last=len(rows))
    return Line(
        "", say(N_("Which number? 0: leave.")), trouble=lambda text: "" if text in numbers else odd
    )
