"""Bolt torque: what is asked, and the comparison, the stages and the order in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.measure.quantity import Torque as TypedTorque
from guide.plain import N_, BadInput
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.threads import parse_thread
from guide.shop.tightening import WITHOUT_A_TORQUE_WRENCH, Stage, order, stages
from guide.shop.torque import Torque, torque
from guide.shop.torque_basis import Basis, Friction, NutFactor

FEMALE = (
    ("steel", N_("steel")),
    ("cast-iron", N_("cast iron")),
    ("aluminium", N_("aluminium")),
)
KINDS = {
    "cross": N_("cross"),
    "star": N_("star"),
    "round": N_("round"),
    "check": N_("check"),
}
NOT_SAID = N_(
    "It does not say what torque to use: the maker's manual does. It knows no damage, plating or"
    " weak plate."
)


def work(typed: Typed) -> Answer:
    """The calculated torque for comparison, and the maker's in stages."""
    found = torque(
        parse_thread(typed.text("thread")),
        typed.text("class") if typed.has("class") else None,
        female=typed.text("female") if typed.has("female") else None,
        engagement_mm=typed.length("engagement") if typed.has("engagement") else None,
        basis=_basis(typed),
    )
    maker = typed.torque("maker-torque") if typed.has("maker-torque") else None
    bolts = typed.whole("bolts") if typed.has("bolts") else None
    ring = () if bolts is None else stages(bolts, None if maker is None else maker.value)
    plain = {
        **found.to_json(),
        "order": None if bolts is None else list(order(bolts)),
        "stages": [_stage(stage, maker) for stage in ring] or None,
        "maker_torque": None if maker is None else str(maker),
        "maker_over_calculated": _ratio(found, maker),
    }
    unused = frozenset(_unused(found, ring, typed))
    return Answer(plain, tuple(_lines(found, ring, maker, typed)), unused)


def _basis(typed: Typed) -> Basis | None:
    """The basis chosen, or None; refused when both or half of one are given."""
    if typed.has("k") and typed.has("friction"):
        raise BadInput(
            N_("K and friction are two bases for one torque."), N_("Choose one of them.")
        )
    if typed.has("k"):
        return NutFactor(typed.number("k"))
    if not typed.has("friction"):
        return None
    if not typed.has("head") or not typed.has("hole"):
        raise BadInput(
            N_("The friction basis needs the face under the head and the hole under it."),
            N_("Give both, measured across."),
        )
    size = typed.number("friction")
    return Friction(size, size, typed.length("head"), typed.length("hole"))


def _stage(stage: Stage, maker: TypedTorque | None) -> dict[str, object]:
    """One stage as plain values, its share of the maker's torque in both units."""
    share = None if maker is None or stage.torque is None else maker.of(stage.torque, maker.unit)
    return {
        "kind": stage.kind,
        "percent": stage.percent,
        "torque_nm": None if share is None else float(share.rounded("N·m", 1)),
        "torque_ftlb": None if share is None else float(share.rounded("lbf·ft", 1)),
        "order": list(stage.order),
    }


def _ratio(found: Torque, maker: TypedTorque | None) -> float | None:
    """The maker's torque over the calculated one."""
    if maker is None or found.torque_nm is None:
        return None
    return round(float(maker.exactly("N·m")) / found.torque_nm, 2)


def _lines(
    found: Torque, ring: tuple[Stage, ...], maker: TypedTorque | None, typed: Typed
) -> Iterator[str]:
    """The figure or why there is none, the stages, and what it does not say."""
    if found.torque_nm is None or found.preload_n is None or found.torque_ftlb is None:
        yield typed.say(N_("No calculated torque."))
        yield from typed.remarks(found.why_not)
    else:
        yield typed.say(
            N_("Calculated for comparison only: {nm} N·m ({ftlb} lbf·ft), preload {kn} kN."),
            nm=typed.figure(found.torque_nm, 0),
            ftlb=typed.figure(found.torque_ftlb, 0),
            kn=typed.figure(found.preload_n / 1000, 1),
        )
    if (ratio := _ratio(found, maker)) is not None:
        yield typed.say(
            N_("The maker's {maker} is {ratio} times that; the maker's is the one to use."),
            maker=maker,
            ratio=typed.figure(ratio, 2),
        )
    if found.basis is not None:
        yield typed.say(
            N_("Basis: {basis}"),
            basis=typed.say(found.basis.sentence, **dict(found.basis.values)),
        )
    yield typed.say(
        N_("Stress area: {size} mm² ({table} in the table)."),
        size=typed.figure(found.stress_area_mm2, 1),
        table=typed.figure(found.table_area_mm2, 1),
    )
    yield from typed.remarks(found.notes)
    yield from _ring_lines(ring, maker, typed)


def _unused(found: Torque, ring: tuple[Stage, ...], typed: Typed) -> Iterator[str]:
    """The sources that this answer does not rest on."""
    inch = parse_thread(found.thread).system == "inch"
    yield from ("iso-898-1",) if inch else ("sae-j429", "handbook-torque")
    if not typed.has("k"):
        yield "torque-tension"
    if not typed.has("friction"):
        yield from ("vdi-2230", "handbook-torque")
    if not ring:
        yield from ("pcc-1", "tb-9-2320-279")


def _ring_lines(ring: tuple[Stage, ...], maker: TypedTorque | None, typed: Typed) -> Iterator[str]:
    """One line a stage, and what to do without a torque wrench."""
    if ring and maker is None:
        yield typed.say(N_("Stages of the maker's torque, which was not given:"))
    for number, stage in enumerate(ring, 1):
        share = f"{stage.percent} %"
        if maker is not None and stage.torque is not None:
            share += f", {stage.torque.normalize():f} {maker.unit}"
        told = N_("{number}. {kind} at {share}: bolts {bolts}")
        again = N_("{number}. {kind} at {share}: bolts {bolts} until none moves")
        yield typed.say(
            again if stage.kind == "check" else told,
            number=number,
            kind=typed.say(KINDS[stage.kind]),
            share=share,
            bolts=" ".join(str(bolt) for bolt in stage.order),
        )
    if ring:
        yield typed.say(WITHOUT_A_TORQUE_WRENCH)


TORQUE = Calculator(
    "torque",
    N_("Bolt torque: to compare, and in stages"),
    N_("Only the maker's torque is staged, never a calculated one."),
    (
        Asked("thread", N_("Thread"), "text", N_("M10, M10x1.25 or 3/8-16")),
        Asked(
            "maker-torque", N_("The maker's torque"), "torque", N_("60 N·m, 44 lbf·ft"),
            needed=False,
        ),
        Asked("bolts", N_("Bolts in the ring"), "whole", needed=False),
        Asked(
            "class", N_("Mark on the head"), "text", N_("8.8, 10.9, 12.9; SAE grade 5 or 8"),
            needed=False,
        ),
        Asked("female", N_("It screws into"), "choice", options=FEMALE, needed=False),
        Asked("engagement", N_("Full thread engaged"), "length", needed=False),
        Asked(
            "k", N_("Nut factor K"), "number", N_("0.15 lubricated to 0.20 plain and dry"),
            needed=False,
        ),
        Asked(
            "friction", N_("Or friction"), "number", N_("0.10 to 0.15, and the next two"),
            needed=False,
        ),
        Asked("head", N_("Face under the head, across"), "length", needed=False),
        Asked("hole", N_("Hole under it, across"), "length", needed=False),
    ),
    work,
    ("iso-898-1", "sae-j429", "torque-tension", "vdi-2230", "handbook-torque", "pcc-1",
     "tb-9-2320-279"),
    caution=NOT_SAID,
)  # fmt: skip
"""The calculator as it is asked."""
