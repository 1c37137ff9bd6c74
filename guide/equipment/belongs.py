"""Which answers belong to which piece of equipment: the one closed mapping."""

from __future__ import annotations

from collections.abc import Mapping

from guide.plain import N_, BadInput

LATHE, CHUCK, INDICATOR, BAR = KINDS = ("lathe", "chuck", "indicator", "bar")
"""What is kept here."""
DUE = "calibration-due"
"""The day on which an indicator's calibration ends."""
ERROR_LIMIT = "error-limit"
"""The largest error that an indicator may have, with its unit; no procedure asks for it."""

BELONGS: Mapping[str, tuple[str, ...]] = {
    LATHE: ("nose", "nose-size", "guard-fitted", "lowest-speed", "swing-over-bed"),
    CHUCK: (
        "body-diameter", "body-length", "bore", "mass", "marked-speed", "screw-count", "sense",
        "clearance", "bolt-thread", "bolt-class", "bolt-count", "bolt-reach", "bolt-torque",
        "bolt-torque-source",
    ),
    INDICATOR: (
        "indicator-kind", "unit", "graduation", "numbering", "range-per-turn", DUE, ERROR_LIMIT,
    ),
    BAR: ("bar-ground", "bar-diameter", "bar-length"),
}  # fmt: skip
"""The procedures' facts by kind. How something stands today belongs to nothing and is looked at
each time: whether the spindle turns freely, what is on the nose, what keeps a plate on it."""

NAMED_BY: Mapping[str, str] = {
    LATHE: "lathe", CHUCK: "chuck", INDICATOR: "indicator-name", BAR: "bar-diameter",
}  # fmt: skip
"""The fact whose question offers what is kept: its answer is the name, but for a bar, which no
procedure asks by name."""


def kind_of(text: str) -> str:
    """A kind of equipment, else BadInput."""
    if text in KINDS:
        return text
    raise BadInput(
        N_("“{kind}” is no kind of equipment."),
        N_("The kinds are: {kinds}."),
        kind=ascii(text),
        kinds=", ".join(KINDS),
    )


def belonging(kind: str, name: str) -> str:
    """The name of an answer if it belongs to that kind, else BadInput."""
    if name in BELONGS[kind_of(kind)]:
        return name
    raise BadInput(
        N_("“{name}” is nothing that belongs to a {kind}."),
        N_("What belongs to one: {names}."),
        name=ascii(name),
        kind=kind,
        names=", ".join(BELONGS[kind]),
    )
