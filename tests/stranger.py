"""Checks a record file with nothing of ours: python stranger.py record.jsonl [HEAD]

HEAD was printed or copied at the time. Whose each key is only the shop can tell: compare them.
"""

import json
import sys
from hashlib import sha256
from pathlib import Path

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey as Public

FIELDS = {"at", "data", "kind", "person", "previous", "sequence", "setup", "step"}

def spelled(value):
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()

def must(*holds):
    if not all(holds):
        raise ValueError

def signed(key, mark, value):
    Public.from_public_bytes(bytes.fromhex(key)).verify(bytes.fromhex(mark), spelled(value))

def checked(line, told, number, before):
    event, on = json.loads(line), told["sign_on"] == "on"
    body, data, signature = event["body"], event["body"]["data"], event["signature"]
    must(spelled(event) == line, event["digest"] == sha256(spelled(body)).hexdigest())
    must(body.keys() - {"key"} == FIELDS, ("key" in body) == on, on or signature == "")
    must((body["setup"], body["sequence"], body["previous"]) == (told["setup"], number, before),
         number > 1 or data["sign_on"] == told["sign_on"])  # fmt: skip
    if on:
        signed(body["key"], signature, body)
        must((body["person"], body["key"]) in [(p["name"], p["key"]) for p in told["people"]])
    for name in {"witness", "allowed"} & data.keys() if on else ():
        second = {n: v for n, v in data[name].items() if n != "signature"}
        must(name == "allowed" or second["key"] != body["key"])
        signed(second["key"], data[name]["signature"], body | {"data": data | {name: second}})
    return event["digest"], signature

try:
    number, digests, kept = 0, [("0" * 64, "")], sys.argv[2:]
    first, *lines = Path(sys.argv[1]).read_bytes().splitlines()
    told = json.loads(first)
    must(told["format"] == "spindleside-record-2", spelled(told) == first, lines)
    for number, line in enumerate(lines, start=1):
        digests.append(checked(line, told, number, digests[-1][0]))
    number, (head, signature) = 0, digests[-1]
    whole = (link := dict(told["link"])).pop("head")
    link |= {"sequence": len(lines), "setup": told["setup"], "digest": head, "signature": signature}
    must((told["events"], told["head"]) == (len(lines), head))
    must(whole == sha256(spelled(link)).hexdigest())
except (InvalidSignature, LookupError, TypeError, ValueError, AttributeError, RecursionError):
    sys.exit(f"line {number + 1} is not as it was written")
known = [whole, *(digest for digest, _ in digests[1:])]
if kept and not (len(kept[0]) >= 16 and any(each.startswith(kept[0]) for each in known)):
    sys.exit("the digest that was kept is not in this record")
print("sound:", len(lines), "events; keys:", *(f"{p['name']} {p['key']}" for p in told["people"]))
