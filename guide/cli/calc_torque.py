"""`spindleside calc torque`: a calculated torque for comparison, and how to tighten a ring."""

from __future__ import annotations

import re
from collections.abc import Iterator

import click

from guide.cli.calc_weight import length_mm
from guide.cli.output import emit
from guide.measure.numerals import parse_number
from guide.measure.quantity import Torque as TypedTorque
from guide.plain import N_, BadInput
from guide.shop.engagement import LEAST
from guide.shop.threads import parse_thread
from guide.shop.tightening import WITHOUT_A_TORQUE_WRENCH, Stage, order, stages
from guide.shop.torque import Torque
from guide.shop.torque import torque as calculate
from guide.shop.torque_basis import Basis, Friction, NutFactor

UNITS = {"nm": "N·m", "lbfft": "lbf·ft", "ftlbf": "lbf·ft", "lbft": "lbf·ft", "ftlb": "lbf·ft"}
"""How a torque's unit may be typed, without its dots, dashes and spaces."""


@click.command()
@click.option("--thread", required=True, help="M10, M10x1.5 or 3/8-16.")
@click.option("--class", "grade", help="From the bolt's head: 8.8, 10.9, 12.9, or SAE grade 5, 8.")
@click.option("--female", type=click.Choice(list(LEAST)), help="What the bolt screws into.")
@click.option("--engagement", help="Length of full thread engaged: 16 mm or 5/8 in.")
@click.option("--k", help="Basis 75 % of proof, T = K·d·F: 0.15 lubricated to 0.20 plain and dry.")
@click.option("--friction", help="Basis 90 % of yield, friction coefficient 0.10 to 0.14.")
@click.option("--head", help="With --friction: across the face under the head, 14.6 mm.")
@click.option("--hole", help="With --friction: across the hole under the head, 11 mm.")
@click.option("--bolts", type=int, help="How many in the ring, for the order and the stages.")
@click.option(
    "--maker-torque", help='The maker\'s figure, "60 N·m" or "44 lbf·ft": this is staged.'
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def torque(
    thread: str,
    grade: str | None,
    female: str | None,
    engagement: str | None,
    k: str | None,
    friction: str | None,
    head: str | None,
    hole: str | None,
    bolts: int | None,
    maker_torque: str | None,
    as_json: bool,
) -> None:
    """A bolt's calculated torque, to compare the maker's with, and the order and stages of a ring.

    There is a figure only when class, female thread, engagement and a basis are all given; else
    why_not says what is missing. Only the maker's torque is staged, never a calculated one.

    Example: spindleside calc torque --thread M10 --class 8.8 --female cast-iron
    --engagement "16 mm" --k 0.15 --bolts 4 --maker-torque "40 N·m"
    """
    found = calculate(
        parse_thread(thread),
        grade,
        female=female,
        engagement_mm=None if engagement is None else length_mm(engagement),
        basis=_basis(k, friction, head, hole),
    )
    maker = None if maker_torque is None else _torque(maker_torque)
    ring = () if bolts is None else stages(bolts, None if maker is None else maker.value)
    answer = {
        **found.to_json(),
        "order": None if bolts is None else list(order(bolts)),
        "stages": [_stage(stage, maker) for stage in ring] or None,
        "maker_torque": None if maker is None else str(maker),
        "maker_over_calculated": _ratio(found, maker),
    }
    emit(answer, as_json, _lines(found, ring, maker))


def _basis(k: str | None, friction: str | None, head: str | None, hole: str | None) -> Basis | None:
    """The basis chosen, or None; refused when both or half of one are given."""
    if k is not None and friction is not None:
        raise BadInput(
            N_("K and friction are two bases for one torque."), N_("Choose one of them.")
        )
    if k is not None:
        return NutFactor(float(parse_number(k)))
    if friction is None:
        return None
    if head is None or hole is None:
        raise BadInput(
            N_("The friction basis needs the face under the head and the hole under it."),
            N_("Give --head and --hole, measured across."),
        )
    size = float(parse_number(friction))
    return Friction(size, size, length_mm(head), length_mm(hole))


def _torque(text: str) -> TypedTorque:
    """A torque typed with its unit, such as 60 N·m, 60 Nm or 44 ft-lb."""
    found = re.fullmatch(r"([^A-Za-z]*?)\s*([A-Za-z].*)", text.strip())
    unit = UNITS.get(re.sub(r"[^a-z]", "", found.group(2).lower())) if found else None
    if found is None or unit is None:
        raise BadInput(
            N_("The torque {text} has no unit known here."),
            N_("Write it such as 60 N·m or 44 lbf·ft."),
            text=text.strip()[:24],
        )
    return TypedTorque.parse(found.group(1), unit)


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


def _lines(found: Torque, ring: tuple[Stage, ...], maker: TypedTorque | None) -> Iterator[str]:
    """The figure or why there is none, the stages, and what it does not say."""
    if found.torque_nm is None or found.preload_n is None:
        yield "No calculated torque."
        yield from (str(reason) for reason in found.why_not)
    else:
        yield (
            f"Calculated for comparison only: {found.torque_nm:.0f} N·m"
            f" ({found.torque_ftlb:.0f} lbf·ft), preload {found.preload_n / 1000:.1f} kN."
        )
    if (ratio := _ratio(found, maker)) is not None:
        yield f"The maker's {maker} is {ratio:.2f} times that; the maker's is the one to use."
    if found.basis is not None:
        yield f"Basis: {found.basis}"
    yield f"Stress area: {found.stress_area_mm2:.1f} mm² ({found.table_area_mm2:.1f} in the table)."
    yield from (str(note) for note in found.notes)
    yield from _ring_lines(ring, maker)
    yield (
        "It does not say what torque to use: the maker's manual does. It knows no damage, plating"
        " or weak plate."
    )


def _ring_lines(ring: tuple[Stage, ...], maker: TypedTorque | None) -> Iterator[str]:
    """One line a stage, and what to do without a torque wrench."""
    if ring and maker is None:
        yield "Stages of the maker's torque, which was not given:"
    for number, stage in enumerate(ring, 1):
        share = f"{stage.percent} %"
        if maker is not None and stage.torque is not None:
            share += f", {stage.torque.normalize():f} {maker.unit}"
        again = " until none moves" if stage.kind == "check" else ""
        bolts = " ".join(str(bolt) for bolt in stage.order)
        yield f"{number}. {stage.kind} at {share}: bolts {bolts}{again}"
    if ring:
        yield WITHOUT_A_TORQUE_WRENCH
