"""The parts of the uncertainty as options: `calc runout --graduation 0.5 --play 0.2 …`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from guide.cli.measured import typed, typed_list
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.measure.uncertainty import Part


def parts_of(
    values: Sequence[Decimal],
    unit: str,
    places: Sequence[float] | None,
    graduation: str | None,
    u: str | None,
    options: Mapping[str, str | None],
) -> tuple[Part, ...]:
    """The parts that were told; none where only the graduation or u was, as the contract has it.

    Play alone says nothing of one reading, so without a graduation, u or repeats it is only
    compared with the tolerance.
    """
    told = {name: text for name, text in options.items() if text is not None}
    of_reading = (graduation, u, told.get("repeats"))
    if not told or (set(told) == {"play"} and not any(of_reading)):
        return ()
    if not any(of_reading):
        raise BadInput(
            N_("These parts alone say nothing of one reading."),
            N_("Give --graduation, --u or --repeats too."),
        )
    return _parts(values, unit, places, {"graduation": graduation, "u": u, **told})


def _parts(
    values: Sequence[Decimal],
    unit: str,
    places: Sequence[float] | None,
    told: Mapping[str, str | None],
) -> tuple[Part, ...]:
    """Each option as a part of one reading's uncertainty."""
    from guide.measure.runout import runout
    from guide.measure.uncertainty import parts

    repeats = told.get("repeats")
    sizes = {name: _size(name, text) for name, text in told.items() if name != "repeats"}
    angle = sizes.pop("angle_error", 0.0)
    return parts(
        **sizes,
        eccentricity=(runout(values, unit, places).eccentricity or 0.0) if angle else 0.0,
        angle_deg=angle,
        repeats=() if repeats is None else [float(value) for value in typed_list(repeats)],
    )


def _size(name: str, text: str | None) -> float:
    """One part as typed, without a sign."""
    number = typed(text) or Decimal(0)
    if number < 0:
        raise BadInput(
            N_("The {name} cannot be {value}."),
            N_("Give it without a sign."),
            name="--" + name.replace("_", "-"),
            value=number,
        )
    return float(number)
