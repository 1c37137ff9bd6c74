"""A record file checked by somebody who has nothing of the program: `tests/stranger.py`."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
from collections.abc import Callable, Mapping
from hashlib import sha256
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

import pytest

from guide.journal import keys
from guide.journal.event import Event
from guide.journal.store import Store
from guide.procedure.load import load
from guide.records.write import write
from guide.walk.second import unsigned_text
from guide.walk.setup import replayed

TESTS = Path(__file__).parents[1]
STRANGER = TESTS / "stranger.py"
A, B, C = "A. Sample", "B. Sample", "C. Sample"
GENESIS = "0" * 64


def loaded(file: Path) -> ModuleType:
    """A module that stands in no package."""
    spec = spec_from_file_location(f"stranger_{file.parent.name}_{file.stem}", file)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Shop(NamedTuple):
    """Record files as the exporter wrote them, by setup, and everybody's hand."""

    files: Mapping[str, bytes]
    hands: Mapping[str, Any]


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """The signed journal that the attacks are made on, exported."""
    folder = tmp_path_factory.mktemp("exported")
    attacks = loaded(TESTS / "attacks" / "conftest.py")
    paper, script = (
        load(TESTS / "records" / "paper.yaml"),
        loaded(TESTS / "records" / "conftest.py"),
    )
    hands = attacks.signed_journal(folder / "journal.sqlite3", paper, script)
    with Store(folder / "journal.sqlite3") as store:
        for name in ("lone", "pair", "tried"):
            write(replayed(store, name), store, folder / f"{name}.jsonl")
    names = ("lone", "pair", "tried")
    return Shop({name: (folder / f"{name}.jsonl").read_bytes() for name in names}, hands)


class File:
    """A record file in the hands of somebody who knows how it is made."""

    def __init__(self, whole: bytes) -> None:
        first, *lines = whole.splitlines()
        self.told: dict[str, Any] = json.loads(first)
        self.events: list[dict[str, Any]] = [json.loads(line) for line in lines]

    @property
    def head(self) -> str:
        """The digest of the last event."""
        digest: str = self.events[-1]["digest"]
        return digest

    def whole(self) -> bytes:
        """The file's bytes."""
        return b"".join(spelled(each) + b"\n" for each in (self.told, *self.events))

    def anew(self, hands: Mapping[str, bytes] | None = None) -> File:
        """Every number, digest, link and count worked out again; whose key is here signs again."""
        previous = GENESIS
        for number, event in enumerate(self.events, start=1):
            body = event["body"]
            body |= {"sequence": number, "previous": previous}
            seed = (hands or {}).get(body.get("key", ""))
            event["digest"] = previous = sha256(spelled(body)).hexdigest()
            event["signature"] = (
                keys.sign(seed, spelled(body).decode()) if seed else event["signature"]
            )
        self.told |= {"events": len(self.events), "head": previous}
        link = {
            "number": self.told["link"]["number"], "previous": self.told["link"]["previous"],
            "setup": self.told["setup"], "sequence": len(self.events), "digest": previous,
            "signature": self.events[-1]["signature"],
        }  # fmt: skip
        self.told["link"]["head"] = sha256(spelled(link)).hexdigest()
        return self


def spelled(value: object) -> bytes:
    """Canonical JSON of what a record file holds."""
    text = json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return text.encode()


@pytest.fixture
def asked(tmp_path: Path) -> Callable[..., tuple[int, str]]:
    """Runs the stranger's script where nothing of ours can be imported."""

    def ask(whole: bytes, *head: str) -> tuple[int, str]:
        file = tmp_path / "record.jsonl"
        file.write_bytes(whole)
        command = [sys.executable, "-I", str(STRANGER), str(file), *head]
        said = subprocess.run(command, capture_output=True, text=True, check=False, cwd=tmp_path)
        assert "Traceback" not in said.stderr
        return said.returncode, (said.stdout or said.stderr).strip()

    return ask


def test_the_script_is_short_and_has_nothing_of_ours() -> None:
    """Less than sixty lines that are not blank; the standard library and one for signatures."""
    text = STRANGER.read_text(encoding="utf-8")
    assert len(text.splitlines()) < 60
    found = [
        each for each in ast.walk(ast.parse(text)) if isinstance(each, ast.Import | ast.ImportFrom)
    ]
    names = {
        (each.module or "") if isinstance(each, ast.ImportFrom) else each.names[0].name
        for each in found
    }
    assert {name.split(".")[0] for name in names} == {
        "json", "sys", "hashlib", "pathlib", "cryptography"
    }  # fmt: skip


@pytest.mark.parametrize("name", ["lone", "pair", "tried"])
def test_a_record_file_as_the_program_wrote_it_is_sound(shop: Shop, asked, name: str) -> None:
    """With and without a kept digest: that of the last event, of an earlier one, or the link's."""
    whole = shop.files[name]
    file = File(whole)
    assert file.whole() == whole
    heads = ((), (file.head,), (file.head[:16],), (file.told["link"]["head"],))
    for head in (*heads, (file.events[3]["digest"],)):
        code, said = asked(whole, *head)
        assert (code, said.startswith(f"sound: {len(file.events)} events")) == (0, True)


def test_the_keys_are_told_so_that_they_can_be_compared(shop: Shop, asked) -> None:
    """With the names they stand for."""
    said = asked(shop.files["pair"])[1]
    assert all(f"{name} {shop.hands[name].key}" in said for name in (A, B, C))


@pytest.mark.parametrize("head", ["", "ab", "f" * 64, "0" * 16, "é" * 16])
def test_a_kept_digest_that_is_not_there_is_told(shop: Shop, asked, head: str) -> None:
    """Or one too short to say anything."""
    code, said = asked(shop.files["pair"], head)
    assert (code, said) == (1, "the digest that was kept is not in this record")


Attack = Callable[[File, Shop], object]


def body(number: int, **changes: Any) -> Attack:
    """An event's body changed, nothing else."""
    return lambda file, shop: file.events[number - 1]["body"].update(changes)


def with_digest(file: File, shop: Shop) -> None:
    """And its digest."""
    event = file.events[6]
    event["body"]["at"] = "2031-03-02T09:59:59.000Z"
    event["digest"] = sha256(spelled(event["body"])).hexdigest()


def with_everything(file: File, shop: Shop) -> None:
    """And everything after it."""
    file.events[6]["body"]["at"] = "2031-03-02T09:59:59.000Z"
    file.anew()


def without_signature(file: File, shop: Shop) -> None:
    """A signature taken off."""
    file.events[6]["signature"] = ""


def unsigned_gate(file: File, shop: Shop) -> None:
    """A gate without a key, everything after it worked out anew."""
    gate = next(e for e in file.events if e["body"]["kind"] == "acknowledge")
    del gate["body"]["key"]
    gate["signature"] = ""
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


def moved_signature(file: File, shop: Shop) -> None:
    """The signature of another event of the same person."""
    file.events[6]["signature"] = file.events[5]["signature"]


def stranger_s_key(file: File, shop: Shop) -> None:
    """A stranger's key in an event, everything signed well."""
    seed = keys.new_seed()
    file.events[6]["body"]["key"] = keys.public_of(seed)
    file.anew({keys.public_of(seed): seed} | {h.key: h.seed for h in shop.hands.values()})


def colleague_s_key(file: File, shop: Shop) -> None:
    """A colleague's key in an event, everything signed well."""
    file.events[6]["body"]["key"] = shop.hands[C].key
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


def colleague_s_name(file: File, shop: Shop) -> None:
    """A colleague's name over somebody's key, everything signed well."""
    file.events[6]["body"]["person"] = C
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


def moved_witness(file: File, shop: Shop) -> None:
    """A witness's signature from another gate, everything else signed well."""
    gates = [e["body"] for e in file.events if "witness" in e["body"]["data"]]
    gates[0]["data"]["witness"] = gates[1]["data"]["witness"]
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


def self_witness(file: File, shop: Shop) -> None:
    """The acting person as witness, signed well."""
    number = next(n for n, e in enumerate(file.events) if "witness" in e["body"]["data"])
    mine = shop.hands[B]
    del file.events[number + 1 :]
    gate = file.events[number]["body"]
    gate["data"]["witness"] = {"person": "Z. Sample", "role": "supervisor", "key": mine.key}
    signature = mine.sign(unsigned_text(Event(**gate), "witness"))
    gate["data"]["witness"]["signature"] = signature
    file.anew({mine.key: mine.seed})


def left_out(file: File, shop: Shop) -> None:
    """An event from the middle."""
    del file.events[6]


def left_out_anew(file: File, shop: Shop) -> None:
    """The same, everything worked out anew."""
    del file.events[6]
    file.anew()


def doubled(file: File, shop: Shop) -> None:
    """An event twice."""
    file.events.insert(6, file.events[6])


def put_in(file: File, shop: Shop) -> None:
    """An event that nobody did, unsigned, everything worked out anew."""
    made = {**file.events[6]["body"], "kind": "pause", "data": {"why": "coffee"}}
    file.events.insert(6, {"body": made, "digest": "", "signature": file.events[6]["signature"]})
    file.anew()


def swapped(file: File, shop: Shop) -> None:
    """Two events in each other's place."""
    file.events[6:8] = file.events[7], file.events[6]


def cut(file: File, shop: Shop) -> None:
    """The last three events."""
    del file.events[-3:]


def of_another_setup(file: File, shop: Shop) -> None:
    """An event of another setup of the same shop in its place."""
    file.events[6] = File(shop.files["lone"]).events[6]


def another_setup_s_name(file: File, shop: Shop) -> None:
    """The whole under another name."""
    file.told["setup"] = "lone"


def told(**changes: Any) -> Attack:
    """The first line changed."""
    return lambda file, shop: file.told.update(changes)


def link(**changes: Any) -> Attack:
    """The place among all events changed."""
    return lambda file, shop: file.told["link"].update(changes)


def opened_unsigned(file: File, shop: Shop) -> None:
    """Sign-on flipped off in the opening alone."""
    file.events[0]["body"]["data"]["sign_on"] = "off"


def flipped_off(file: File, shop: Shop) -> None:
    """Sign-on flipped off in the first line, every key taken out."""
    file.told["sign_on"] = "off"
    for event in file.events:
        event["body"].pop("key", None)
        event["signature"] = ""
    file.anew()


def person_left_out(file: File, shop: Shop) -> None:
    """Somebody who signed left out of the people."""
    file.told["people"] = [each for each in file.told["people"] if each["name"] != C]


def key_of_person_swapped(file: File, shop: Shop) -> None:
    """Somebody's key in the list of people replaced."""
    file.told["people"][0]["key"] = "ab" * 32


ATTACKS: dict[str, tuple[Attack, int]] = {
    "text edited": (body(7, at="2031-03-02T09:59:59.000Z"), 8),
    "step edited": (body(7, step="gate"), 8),
    "data edited": (body(7, data={}), 8),
    "a field more": (body(7, note="x"), 8),
    "with its digest": (with_digest, 8),
    "with everything": (with_everything, 8),
    "signature taken off": (without_signature, 8),
    "gate unsigned": (unsigned_gate, 5),
    "signature moved": (moved_signature, 8),
    "a stranger's key": (stranger_s_key, 8),
    "a colleague's key": (colleague_s_key, 8),
    "a colleague's name": (colleague_s_name, 8),
    "witness moved": (moved_witness, 5),
    "self-witness": (self_witness, 5),
    "left out": (left_out, 8),
    "left out, anew": (left_out_anew, 8),
    "doubled": (doubled, 9),
    "put in": (put_in, 8),
    "swapped": (swapped, 8),
    "cut": (cut, 1),
    "of another setup": (of_another_setup, 8),
    "another setup's name": (another_setup_s_name, 2),
    "head": (told(head="ab" * 32), 1),
    "count": (told(events=3), 1),
    "format": (told(format="spindleside-record-1"), 1),
    "no link": (told(link=None), 1),
    "sign-on in the first line": (told(sign_on="off"), 2),
    "sign-on in the opening": (opened_unsigned, 2),
    "sign-on flipped off": (flipped_off, 2),
    "link number": (link(number=1), 1),
    "link before": (link(previous="ab" * 32), 1),
    "link head": (link(head="ab" * 32), 1),
    "person left out": (person_left_out, 13),
    "person's key": (key_of_person_swapped, 2),
}


@pytest.mark.parametrize("name", ATTACKS)
def test_what_a_record_file_can_carry_is_found_by_the_stranger(shop: Shop, asked, name) -> None:
    """The first line that is wrong is named, counted from 1."""
    attack, line = ATTACKS[name]
    file = File(shop.files["pair"])
    attack(file, shop)
    assert asked(file.whole()) == (1, f"line {line} is not as it was written")


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        (b'"kind":"pause"', b'"kind": "pause"', 6),
        (b'"kind":"pause"', b'"kind":"x","kind":"pause"', 6),
        (b'"kind":"pause"', b'"kind":"p\\u0061use"', 6),
        (b'"kind":"pause"', b'"kind":"pa\xffuse"', 6),
        (b'"sequence":7', b'"sequence":7.0', 8),
        (b'{"body"', b'[' * 3000 + b'{"body"', 2),
    ],
    ids=["gap", "twice", "escaped", "no text", "point", "deep"],
)  # fmt: skip
def test_another_spelling_is_found(shop: Shop, asked, old: bytes, new: bytes, line: int) -> None:
    """One text has one digest, so it has one spelling."""
    whole = shop.files["pair"].replace(old, new, 1)
    assert whole != shop.files["pair"]
    assert asked(whole) == (1, f"line {line} is not as it was written")


@pytest.mark.parametrize("whole", [b"", b"\n", b"{}\n", b"null\n", b"[]", b"\xff\xfe", b"x\ny"])
def test_what_is_no_record_file_is_found(asked, whole: bytes) -> None:
    """In its first line."""
    assert asked(whole) == (1, "line 1 is not as it was written")


def cut_anew(file: File, shop: Shop) -> None:
    """The last three events, everything worked out anew."""
    del file.events[-3:]
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


def all_keys_swapped(file: File, shop: Shop) -> None:
    """Everybody's key replaced by one of the forger's, who signs everything anew."""
    mine = {hand.key: keys.new_seed() for hand in shop.hands.values()}
    for each in file.told["people"]:
        each["key"] = keys.public_of(mine[each["key"]])
    for event in file.events:
        made = event["body"]
        made["key"] = keys.public_of(mine[made["key"]])
        made["data"].pop("witness", None)
        made["data"].pop("allowed", None)
    file.anew({keys.public_of(seed): seed for seed in mine.values()})


def all_unsigned(file: File, shop: Shop) -> None:
    """Sign-on flipped off everywhere, everything worked out anew."""
    file.events[0]["body"]["data"]["sign_on"] = "off"
    flipped_off(file, shop)


def read_otherwise(file: File, shop: Shop) -> None:
    """Somebody's own reading changed, everything signed anew by everybody."""
    event = next(e for e in file.events if "values" in e["body"]["data"])
    event["body"]["data"]["values"][0] = "0.0009"
    for each in file.events:
        each["body"]["data"].pop("witness", None)
        each["body"]["data"].pop("allowed", None)
    file.anew({hand.key: hand.seed for hand in shop.hands.values()})


WITH_A_HEAD = {
    "cut": cut_anew,
    "everybody's key swapped": all_keys_swapped,
    "nobody signs": all_unsigned,
    "signed anew by all": read_otherwise,
}


@pytest.mark.parametrize("name", WITH_A_HEAD)
def test_what_was_worked_out_anew_whole_is_told_by_a_kept_digest_only(
    shop: Shop, asked, name: str
) -> None:
    """By the last event's digest, by its first 16 signs, and by the link's head."""
    file = File(shop.files["pair"])
    kept = (file.head, file.head[:16], file.told["link"]["head"])
    WITH_A_HEAD[name](file, shop)
    assert asked(file.whole())[0] == 0
    for head in kept:
        assert asked(file.whole(), head)[0] == 1


def test_an_unsigned_record_worked_out_anew_is_told_by_a_kept_digest_only(
    shop: Shop, asked
) -> None:
    """The rehearsal passed off as real; nobody signed it."""
    file = File(shop.files["tried"])
    kept = file.head
    file.events[0]["body"]["data"] |= {"mode": "real", "input": "terminal"}
    file.anew()
    assert asked(file.whole())[0] == 0
    assert asked(file.whole(), kept)[0] == 1
