"""`spindleside calc torque`: a calculated torque for comparison, and how to tighten a ring."""

from __future__ import annotations

import click

from guide.cli.answering import work_out
from guide.shop.engagement import LEAST


@click.command()
@click.option("--thread", required=True, help="M10, M10x1.5 or 3/8-16.")
@click.option("--class", "grade", help="From the bolt's head: 8.8, 10.9, 12.9, or SAE grade 5, 8.")
@click.option("--female", type=click.Choice(list(LEAST)), help="What the bolt screws into.")
@click.option("--engagement", help="Length of full thread engaged: 16 mm or 5/8 in.")
@click.option("--k", help="Basis 75 % of proof, T = K·d·F: 0.15 lubricated to 0.20 plain and dry.")
@click.option("--friction", help="Basis 90 % of yield, friction coefficient 0.10 to 0.15.")
@click.option("--head", help="With --friction: across the face under the head, 14.6 mm.")
@click.option("--hole", help="With --friction: across the hole under the head, 11 mm.")
@click.option("--bolts", type=int, help="How many in the ring, for the order and the stages.")
@click.option(
    "--maker-torque", help='The maker\'s figure, "60 N·m" or "44 lbf·ft": this is staged.'
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def torque(as_json: bool, grade: str | None, **options: object) -> None:
    """A bolt's calculated torque, to compare the maker's with, and the order and stages of a ring.

    There is a figure only when class, female thread, engagement and a basis are all given; else
    why_not says what is missing. Only the maker's torque is staged, never a calculated one.

    Example: spindleside calc torque --thread M10 --class 8.8 --female cast-iron
    --engagement "16 mm" --k 0.15 --bolts 4 --maker-torque "40 N·m"
    """
    from guide.present.worked.torque import TORQUE

    work_out(TORQUE, {**options, "class": grade}, as_json)
