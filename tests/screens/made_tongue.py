"""Languages for tests: one made by rule, and any other with the ends of its texts shown."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from guide.settings import CHECKOUT, PROCEDURES, PROGRAM

TAG = "xx"
"""A tag that no people speaks."""
ACCENTED = str.maketrans("aeiouyAEIOUYcnszCNSZ", "áéíöûýÁÉÍÖÛÝçñšžÇÑŠŽ")
PLACE = re.compile(r"(\{[^}]*\})")
WIDE, MORE = "車床", "ęḷ·ęḷ "
"""Signs two cells wide, and what a text is made longer with."""
BEGINS, ENDS = "\u0332", "\u0333"
"""Stand round every text that comes out of a catalogue, and take no room."""


def pseudo(text: str) -> str:
    """A text with accents, some wide signs, and about two fifths longer; its places stay."""
    parts = (each if each.startswith("{") else each.translate(ACCENTED)
             for each in PLACE.split(text))  # fmt: skip
    longer = "".join(islice(cycle(MORE), len(text) * 2 // 5))
    return bracketed(text, f"{''.join(parts)} {WIDE}{longer}")


def bracketed(text: str, said: str) -> str:
    """What is said for a text, its ends shown, between the gaps that the text has."""
    gaps = len(text) - len(text.lstrip()), len(text) - len(text.rstrip())
    return f"{' ' * gaps[0]}{BEGINS}{said.strip()}{ENDS}{' ' * gaps[1]}"


def checkout(place: Path, tag: str = TAG, *, reviewed: str = "no", complete: str = "yes") -> Path:
    """A checkout with the shipped procedures and this language alone."""
    folder = place / "locales" / tag.replace("-", "_") / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (place / "procedures").symlink_to(CHECKOUT / "procedures")
    for domain in (PROGRAM, PROCEDURES):
        head = f"# Made by rule.\n# Complete: {complete}\n# Reviewed-By-Machinist: {reviewed}\n#"
        made = Catalog(header_comment=head, fuzzy=False)
        for text, context, said in texts(domain, tag):
            made.add(text, said, context=context)
        with (folder / f"{domain}.po").open("wb") as out:
            write_po(out, made)
    return place


def texts(domain: str, tag: str) -> Iterator[tuple[str, str | None, str]]:
    """Every text of a domain, what it stands in, and what this language says for it."""
    file = f"{domain}.pot" if tag == TAG else f"{tag}/LC_MESSAGES/{domain}.po"
    with (CHECKOUT / "locales" / file).open("rb") as template:
        for each in read_po(template):
            text, said = str(each.id), str(each.string)
            if text and (said or tag == TAG):
                yield text, each.context, pseudo(text) if tag == TAG else bracketed(text, said)
