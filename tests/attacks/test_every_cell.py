"""Whatever cell of whatever table is changed, verifying finds something."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.journal.store import Store
from guide.records.evidence import faults

COLUMNS = {
    "event": ("setup", "sequence", "body", "digest", "signature"),
    "link": ("number", "setup", "sequence", "digest", "signature", "head"),
    "sealed": ("digest", "body"),
    "text": ("digest", "body"),
    "glance": ("setup", "opened", "ended", "mode", "lathe", "chuck"),
    "tally": ("setups", "unended", "checks"),
}
VALUES = (None, 0, -1, 7, 1.5, "", "x", "lone", "00" * 32, b"\xff", "\x1b[2J")


def cells(file: Any) -> Iterator[tuple[str, str, int]]:
    """Every cell: table, column, and which row."""
    with closing(sqlite3.connect(file)) as base:
        for table, columns in COLUMNS.items():
            ((count,),) = base.execute(f"SELECT count(*) FROM {table}")
            for column in columns:
                yield from ((table, column, row) for row in range(count))


def change(file: Any, cell: tuple[str, str, int], value: object) -> bool:
    """Another value in a cell; whether the table took it and it is another one than before."""
    table, column, row = cell
    key = "setup" if table == "glance" else "rowid"
    with closing(sqlite3.connect(file)) as base, base:
        for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'"):
            base.execute(f"DROP TRIGGER {name}")
        which = f"SELECT {key}, {column} FROM {table} ORDER BY {key} LIMIT 1 OFFSET ?"
        ((held, before),) = base.execute(which, (row,)).fetchall()
        try:
            base.execute(f"UPDATE {table} SET {column} = ? WHERE {key} = ?", (value, held))
        except sqlite3.IntegrityError:
            return False
        again = f"SELECT 1 FROM {table} WHERE {key} = ? AND {column} IS ?"
        return base.execute(again, (held, before)).fetchone() is None


@settings(
    max_examples=100,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.data())
def test_any_cell_that_is_changed_is_found(made, tmp_path_factory, data: st.DataObject) -> None:
    """Nothing raises, and the sentence can be shown."""
    from shutil import copy

    file = tmp_path_factory.mktemp("cell") / "journal.sqlite3"
    copy(made[0], file)
    cell = data.draw(st.sampled_from(sorted(cells(file))))
    value = data.draw(st.sampled_from(VALUES))
    taken = change(file, cell, value)
    with Store.read(file) as store:
        found = list(faults(store, figures=False))
    assert bool(found) == taken, (cell, value)
    assert all(each.says.isprintable() for each in found)
