"""Balance: what is asked, and what a shift of the body amounts to, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.balance import GMM_PER_OZIN, N_PER_LBF, Balance, balance

NOT_SAID = N_(
    "It does not say what speed to run at. No standard seen gives a grade for a lathe chuck: the"
    " marked maximum and the maker's manual come first. Stand clear of the swing, begin slow, and"
    " stop at any shake."
)


def work(typed: Typed) -> Answer:
    """What the grade stands for, and what the shift amounts to."""
    found = balance(
        typed.number("grade"),
        rpm=typed.rpm("rpm") if typed.has("rpm") else None,
        body_kg=typed.mass("mass") if typed.has("mass") else None,
        shift_um=typed.length("shift") * 1000 if typed.has("shift") else None,
        turning_kg=typed.mass("turning") if typed.has("turning") else None,
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _lines(found: Balance, typed: Typed) -> Iterator[str]:
    """Grade, shift, and what is not said."""
    yield from _of_grade(found, typed)
    yield from _of_shift(found, typed)
    yield from typed.remarks(found.notes)


def _of_grade(found: Balance, typed: Typed) -> Iterator[str]:
    """What the grade stands for at the speed."""
    if found.permissible_um is None or found.rpm is None:
        return
    yield typed.say(
        N_(
            "G {grade} at {rpm} rev/min stands for a centre of mass {um} µm ({thou} thou) off"
            " the axis."
        ),
        grade=typed.figure(found.grade, 2),
        rpm=typed.figure(found.rpm, 0),
        um=typed.figure(found.permissible_um, 2),
        thou=typed.figure(found.permissible_um / 25.4, 3),
    )
    if found.permissible_gmm is not None and found.turning_kg is not None:
        yield typed.say(
            N_("For {kg} kg that is an unbalance of {gmm} g·mm ({ozin} oz·in)."),
            kg=typed.figure(found.turning_kg, 2),
            gmm=typed.figure(found.permissible_gmm, 0),
            ozin=typed.figure(found.permissible_gmm / GMM_PER_OZIN, 2),
        )


def _of_shift(found: Balance, typed: Typed) -> Iterator[str]:
    """What the shift alone makes."""
    if found.unbalance_gmm is not None and found.shift_um is not None:
        yield typed.say(
            N_("The body moved by {shift} changes the unbalance by {gmm} g·mm ({ozin} oz·in)."),
            shift=typed.long(found.shift_um / 1000, 3),
            gmm=typed.figure(found.unbalance_gmm, 0),
            ozin=typed.figure(found.unbalance_gmm / GMM_PER_OZIN, 2),
        )
    if found.grade_reached is not None and found.specific_um is not None and found.rpm is not None:
        yield typed.say(
            N_("Over all that turns that is {um} µm, by itself G {grade} at {rpm} rev/min."),
            um=typed.figure(found.specific_um, 1),
            grade=typed.figure(found.grade_reached, 2),
            rpm=typed.figure(found.rpm, 0),
        )
    if found.rpm_at_grade is not None:
        yield typed.say(
            N_("By itself it amounts to G {grade} at {rpm} rev/min; that is a comparison only."),
            grade=typed.figure(found.grade, 2),
            rpm=typed.figure(found.rpm_at_grade, 0),
        )
    if found.force_n is not None and found.rpm is not None:
        yield typed.say(
            N_(
                "It pulls outward with {n} N ({lbf} lbf) at {rpm} rev/min, four times that at"
                " twice the speed."
            ),
            n=typed.figure(found.force_n, 1),
            lbf=typed.figure(found.force_n / N_PER_LBF, 1),
            rpm=typed.figure(found.rpm, 0),
        )


BALANCE = Calculator(
    "balance",
    N_("Balance: what truing does to it"),
    N_("A body shifted on its plate takes its weight along."),
    (
        Asked("grade", N_("Balance grade G"), "number", N_("the maker's; G 6.3 is machine tools")),
        Asked("mass", N_("The body that was shifted weighs"), "mass", needed=False),
        Asked(
            "shift", N_("How far it was shifted"), "length",
            N_("half of what the runout changed by"), needed=False,
        ),
        Asked("rpm", N_("At a speed of"), "rpm", N_("rev/min, to compare"), needed=False),
        Asked(
            "turning", N_("All that turns weighs"), "mass",
            N_("body and plate together; else the body alone"), needed=False,
        ),
    ),
    work,
    ("iso-21940-11", "newton", "unbalance-example"),
    caution=NOT_SAID,
    assumed=N_("Assumed: everything that turns is rigid, and the shift lies in one plane."),
)  # fmt: skip
"""The calculator as it is asked."""
