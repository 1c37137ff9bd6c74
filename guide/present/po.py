"""A catalogue read as it is written (`.po`): nothing has to be compiled before it can be used."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

QUOTED = re.compile(r'^(?:(msgctxt|msgid|msgstr) )?"(.*)"$')
ESCAPED = re.compile(r"\\(.)")
SIGNS = {"n": "\n", "t": "\t", "r": "\r"}
Key = tuple[str, str]
"""The context, blank for none, and the text."""


@dataclass(frozen=True, slots=True)
class Catalogue:
    """What a language says for each text; one that has no entry is said as it is written."""

    head: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    """What the catalogue says of itself, in comments at its top, which every tool leaves alone."""
    entries: Mapping[Key, str] = field(default_factory=lambda: MappingProxyType({}))

    def said(self, text: str, context: str = "") -> str:
        """A text in this language."""
        return self.entries.get((context, text)) or text

    @property
    def reviewed(self) -> bool:
        """Whether a machinist who speaks the language has read it."""
        return self.head.get("Reviewed-By-Machinist") == "yes"


def catalogue_of(text: str) -> Catalogue:
    """The catalogue in the text of a file; entries marked fuzzy are guesses and not taken."""
    found = {(each["msgctxt"], each["msgid"]): each["msgstr"] for each in _entries(text)}
    found.pop(("", ""), None)
    head = dict(_head(text.partition("\nmsgid")[0]))
    told = {key: said for key, said in found.items() if said}
    return Catalogue(MappingProxyType(head), MappingProxyType(told))


def entry(text: str, context: str, note: str) -> str:
    """One entry that waits to be translated, with a note of what it is."""
    lines = [f"#. {' '.join(note.split())}"]
    lines += [f"msgctxt {_quoted(context)}"] if context else []
    return "\n".join((*lines, f"msgid {_quoted(text)}", 'msgstr ""', ""))


def _quoted(text: str) -> str:
    """A text such that it is read back as it is."""
    for sign, written in (("\\", "\\\\"), ('"', '\\"'), *((v, f"\\{k}") for k, v in SIGNS.items())):
        text = text.replace(sign, written)
    return f'"{text}"'


def texts_in(text: str) -> frozenset[Key]:
    """The context and text of every entry of a file, translated or not."""
    return frozenset((each["msgctxt"], each["msgid"]) for each in _entries(text))


def _head(text: str) -> Iterator[tuple[str, str]]:
    """The comments at the top that name something: `# Reviewed-By-Machinist: no`."""
    for line in text.splitlines():
        name, named, said = line.removeprefix("# ").partition(": ")
        if line.startswith("# ") and named:
            yield name, said.strip()


def _entries(text: str) -> Iterator[dict[str, str]]:
    """Every entry that counts; entries stand apart by a blank line."""
    for block in text.replace("\r\n", "\n").split("\n\n"):
        lines = block.split("\n")
        if not any(line.startswith("#,") and "fuzzy" in line for line in lines):
            yield _entry(lines)


def _entry(lines: Iterable[str]) -> dict[str, str]:
    """One entry; its texts may go on over several quoted lines."""
    told, name = {"msgctxt": "", "msgid": "", "msgstr": ""}, "msgid"
    for line in lines:
        if found := QUOTED.match(line):
            name = found[1] or name
            told[name] += ESCAPED.sub(lambda sign: SIGNS.get(sign[1], sign[1]), found[2])
    return told
