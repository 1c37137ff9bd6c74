"""A signed journal made once by the program itself, and a copy of it for each test to spoil.

Invented people: A. Sample is a supervisor, B. Sample a machinist, C. Sample an apprentice. The
setup `lone` was done by A. Sample alone; from then on the shop asks for a witness at each gate, and
`pair` was done by B. and C. Sample with A. Sample beside. `tried` is a rehearsal.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable, Iterator, Mapping
from importlib.util import module_from_spec, spec_from_file_location
from itertools import count
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

import pytest

from guide.cli.main import run
from guide.journal import keys
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.people.rules import Rules
from guide.procedure.load import load
from guide.walk.setup import Setup, open_setup

HERE = Path(__file__).parent
A, B, C = "A. Sample", "B. Sample", "C. Sample"
PINS = {A: "four tin horses", B: "nine wet boots", C: "two red doors"}
LATHE = "Lathe 2 (invented)"


def loaded(file: Path) -> ModuleType:
    """A module that stands in no package."""
    name = f"attacks_{file.parent.name}_{file.stem}"
    if name not in sys.modules:
        spec = spec_from_file_location(name, file)
        assert spec is not None
        assert spec.loader is not None
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


class Shop(NamedTuple):
    """A journal, and everybody who could sign on in it."""

    tool: Any
    hands: dict[str, Hand]

    @property
    def file(self) -> Path:
        """The journal file."""
        file: Path = self.tool.file
        return file

    def keys(self, *names: str) -> Mapping[str, Callable[[str], str]]:
        """The keys of some people, who sign whatever they are asked to."""
        return {self.hands[name].key: signs(self.hands[name]) for name in names}


def signs(hand: Hand) -> Callable[[str], str]:
    """Signs with somebody's key, whatever the program says."""
    return lambda text: keys.sign(hand.seed, text)


def clock() -> Callable[[], str]:
    """The next minute of an invented day."""
    minutes = count()

    def now() -> str:
        number = next(minutes)
        return f"2031-03-02T{8 + number // 60:02}:{number % 60:02}:05.000Z"

    return now


@pytest.fixture(scope="session")
def paper() -> Any:
    """The short procedure."""
    return load(HERE.parent / "records" / "paper.yaml")


@pytest.fixture(scope="session")
def on_paper() -> ModuleType:
    """Everything that is done in the short procedure."""
    return loaded(HERE.parent / "records" / "conftest.py")


@pytest.fixture(scope="session")
def tool_of() -> Any:
    """Makes the tool for a journal file."""
    return loaded(HERE / "tool.py").Tool


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keys, "COST", 2**10)


def alone(store: Store, paper: Any, on_paper: ModuleType, now: Any, **opening: Any) -> Setup:
    """A whole setup of A. Sample alone."""
    made = open_setup(store, paper, person=A, at=now(), lathe=LATHE, **opening)
    script = on_paper.script(made, A, "dinner break", {})
    for number, (trigger, data, _) in enumerate(script):
        if not 9 <= number <= 14:
            made.act(trigger, data, person=A, at=now())
    return made


def paired(
    store: Store, paper: Any, on_paper: ModuleType, now: Any, hands: Mapping[str, Hand]
) -> Setup:
    """A whole setup of B. and C. Sample, A. Sample witnessing at gates and allowing a deviation."""
    made = open_setup(
        store, paper, setup="pair", person=B, at=now(), lathe=LATHE, hand=hands[B],
        witness=People(store).roster().rules.witness,
    )  # fmt: skip
    made.hands |= hands
    person = B
    for number, (trigger, data, now_at) in enumerate(on_paper.script(made, C, "dinner break", {})):
        person = now_at or person
        if number == 6:
            why = {"why": "the stand is lent out"}
            made.act("deviate", why, person=person, at=now(), beside=hands[A])
        beside = hands[A] if trigger == "acknowledge" else None
        made.act(trigger, data, person=person, at=now(), beside=beside)
    return made


def signed_journal(file: Path, paper: Any, on_paper: ModuleType) -> dict[str, Hand]:
    """Writes the signed journal by the program itself; everybody's hand."""
    now = clock()
    with pytest.MonkeyPatch.context() as patch, Store(file) as store:
        patch.setattr(keys, "COST", 2**10)
        people = People(store)
        first = people.first(A, PINS[A], now())
        people.add(first, B, "machinist", PINS[B], now())
        people.add(first, C, "apprentice", PINS[C], now())
        hands = {name: people.sign_on(name, pin, now()) for name, pin in PINS.items()}
        alone(store, paper, on_paper, now, setup="lone", hand=hands[A])
        people.set_rules(first, Rules(witness={"gate": "machinist"}), now())
        alone(store, paper, on_paper, now, setup="tried", mode="rehearsal", typed_at="file")
        paired(store, paper, on_paper, now, hands)
    return {name: Hand(h.name, h.role, h.key, h.seed) for name, h in hands.items()}


@pytest.fixture(scope="session")
def made(
    tmp_path_factory: pytest.TempPathFactory, paper: Any, on_paper: ModuleType
) -> tuple[Path, dict[str, Hand]]:
    """The signed journal as the program wrote it."""
    file = tmp_path_factory.mktemp("signed") / "journal.sqlite3"
    return file, signed_journal(file, paper, on_paper)


@pytest.fixture
def shop(made: tuple[Path, dict[str, Hand]], tmp_path: Path, tool_of: Any) -> Shop:
    """A copy of the signed journal."""
    file = tmp_path / "home" / "journal.sqlite3"
    file.parent.mkdir()
    shutil.copy(made[0], file)
    return Shop(tool_of(file), dict(made[1]))


@pytest.fixture(scope="session")
def unsigned_made(
    tmp_path_factory: pytest.TempPathFactory, paper: Any, on_paper: ModuleType
) -> Path:
    """A journal of somebody alone who signs nothing."""
    file = tmp_path_factory.mktemp("unsigned") / "journal.sqlite3"
    now = clock()
    with Store(file) as store:
        People(store).set_rules(A, Rules(sign_on=False), now())
        alone(store, paper, on_paper, now, setup="lone")
        alone(store, paper, on_paper, now, setup="tried", mode="rehearsal", typed_at="file")
    return file


@pytest.fixture
def hobby(unsigned_made: Path, tmp_path: Path, tool_of: Any) -> Shop:
    """A copy of the unsigned journal."""
    file = tmp_path / "home" / "journal.sqlite3"
    file.parent.mkdir()
    shutil.copy(unsigned_made, file)
    return Shop(tool_of(file), {})


@pytest.fixture
def store(shop: Shop) -> Iterator[Store]:
    """The copy of the signed journal, opened by the program."""
    with Store(shop.file) as store:
        yield store


class Said(NamedTuple):
    """What one call left behind."""

    code: int | str | None
    out: str
    err: str


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Calls the program with arguments, in this process."""

    def spindleside(*arguments: object) -> Said:
        with pytest.raises(SystemExit) as left:
            run([str(each) for each in arguments])
        told = capsys.readouterr()
        return Said(left.value.code, told.out, told.err)

    return spindleside
