"""Makes one of each export from an invented rehearsal that is marked as such on every page.

Run it from the checkout: `python tests/pictures/make_pages.py FOLDER`. Look at them with any
viewer; `pdftoppm -r 100 -png record.pdf record` turns pages into pictures.
"""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

HERE = Path(__file__).parent
ANSWERS = HERE.parent / "answers" / "adjustable-chuck-inch.yaml"
SETUP = "rehearsed"


def main(folder: Path) -> None:
    """Every form of the record and both of the label, with how large each came out."""
    sys.path.insert(0, str(HERE.parents[1]))
    from guide.journal.store import Store
    from guide.procedure.shelf import find
    from guide.records.label import FORMS, write_label
    from guide.records.of_setup import record_of
    from guide.records.write import ENDINGS, write
    from guide.rehearse import read_answers, rehearse

    folder.mkdir(parents=True, exist_ok=True)
    answers = read_answers(ANSWERS)
    with TemporaryDirectory() as home, Store(Path(home) / "journal.sqlite3") as store:
        walk = rehearse(find(answers.procedure), answers, store, SETUP)
        for ending in ENDINGS:
            write(walk, store, folder / f"record{ending}")
        for ending in FORMS:
            write_label(record_of(walk, store), folder / f"label{ending}")
    for path in sorted(folder.iterdir()):
        print(f"{path.stat().st_size:>8}  {path}")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) == 2 else Path("pages"))
