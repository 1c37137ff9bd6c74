"""What holds for every test: the real data folder raises when it is touched.

Files of tests lie in memory where the system has room for them: what is written durably is written
the same way, and waits for no disk.
"""

from __future__ import annotations

import fcntl
import os
import select
import shutil
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import NoReturn

import pytest

from guide.journal.event import Event

MEMORY, ROOM = Path("/dev/shm"), 2**30
"""Where Linux keeps files in memory, and how many bytes have to be free there."""

WORKERS = int(os.environ.get("PYTEST_XDIST_WORKER_COUNT", "1"))
"""For how many the tests are dealt out."""


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What walks a whole setup begins first, on every worker, so that none has it left at the end.

    Within that the order is as random as before.
    """
    items.sort(key=lambda item: item.get_closest_marker("long") is None)
    items[:] = [item for pile in range(WORKERS) for item in items[pile::WORKERS]]


def pytest_configure(config: pytest.Config) -> None:
    """Choose where temporary folders are made, unless somebody has chosen already."""
    if os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ROOM:
        os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))


@pytest.fixture(autouse=True)
def kept_from_the_real_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A test's data folder is its own, and asking the platform for the real one raises."""
    monkeypatch.setenv("SPINDLESIDE_HOME", str(tmp_path))
    monkeypatch.setattr("platformdirs.user_data_dir", touched)


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """Gives the folder of a name, made by whichever worker comes first and only read by all."""
    own = tmp_path_factory.getbasetemp()
    place = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "made-once"
    place.mkdir(exist_ok=True)

    def made(name: str, make: Callable[[Path], None]) -> Path:
        folder, done = place / name, place / f"{name}.done"
        with open(place / f"{name}.lock", "w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not done.exists():
                folder.mkdir()
                make(folder)
                done.touch()
        return folder

    return made


class Indicator:
    """A simulated indicator at the far end of a pseudo-terminal."""

    def __init__(self) -> None:
        import tty

        self.far, self._near = os.openpty()
        self.port = os.ttyname(self._near)
        tty.setraw(self._near)

    def sends(self, data: bytes) -> None:
        """Bytes as they are, all of them, however slowly they are read."""
        while data:
            data = data[os.write(self.far, data[:1024]) :]

    def hears(self, seconds: float = 2.0) -> bytes:
        """What was sent to it."""
        ready, _, _ = select.select([self.far], [], [], seconds)
        return os.read(self.far, 100) if ready else b""

    def unplug(self) -> None:
        """The wire is pulled."""
        for end in (self._near, self.far):
            os.close(end)
        self.far = self._near = -1

    def end(self) -> None:
        """Unplugged, if it is not yet."""
        if self.far >= 0:
            self.unplug()


@pytest.fixture
def indicator() -> Iterator[Callable[[], Indicator]]:
    """Plugs in simulated indicators, each on a port of its own."""
    plugged: list[Indicator] = []

    def plug() -> Indicator:
        plugged.append(Indicator())
        return plugged[-1]

    yield plug
    for each in plugged:
        each.end()


def touched(*arguments: object, **named: object) -> NoReturn:
    """Stands where the platform would name the user's data folder."""
    raise AssertionError("a test touched the real data folder")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Whether the screens are kept anew after somebody has looked at them."""
    parser.addoption("--keep-screens", action="store_true", help="keep every screen as it is now")


ONE_SETUP = Path(__file__).parent / "answers" / "one-setup.txt"
"""An invented chuck: each reading, move, torque and decision from bare nose to last turn."""
KEPT = ("values", "closing", "screw", "value", "got", "decision", "torque")
"""What does not depend on whose hands enter it, or by which way."""


def one_word(value: object) -> str:
    """A value without gaps, with one sign for a torque that was typed or picked."""
    values = value if isinstance(value, (list, tuple)) else [value]
    return ",".join(str(each).replace("ft-lb", "lbf·ft").replace(" ", "-") for each in values)


@pytest.fixture
def as_kept() -> Callable[[Iterable[Event]], None]:
    """Looks whether events are those of the one setup, value by value; each way must come to it."""

    def compare(events: Iterable[Event]) -> None:
        lines = [
            " ".join((each.step, *(f"{n}={one_word(each.data[n])}" for n in found)))
            for each in events
            if (found := [name for name in KEPT if name in each.data])
        ]
        assert lines == ONE_SETUP.read_text().splitlines()

    return compare
