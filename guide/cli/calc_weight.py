"""`spindleside calc weight`: what a chuck or plate is likely to weigh, as a band."""

from __future__ import annotations

import click

from guide.cli.answering import work_out

OF = click.Choice(["steel", "cast-iron"])


@click.command()
@click.option("--diameter", required=True, help="Across the body, with its unit: 200 mm or 8 in.")
@click.option("--length", required=True, help="Body front to back without jaws: 85 mm or 3 3/8 in.")
@click.option("--bore", default="0 mm", help="Hole right through; left out if there is none.")
@click.option("--material", type=OF, required=True, help="Of the body.")
@click.option("--jaws", type=int, default=3, show_default=True, help="Fitted; 0 for a plain plate.")
@click.option("--plate-diameter", help="A plate that hangs with it, across.")
@click.option("--plate-length", help="The plate front to back.")
@click.option("--plate-bore", help="The plate's hole right through.")
@click.option("--plate-material", type=OF, help="Of the plate; the body's unless given.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def weight(as_json: bool, **options: object) -> None:
    """Estimate between what and what a chuck or plate weighs, to plan its lift with the heavier.

    A mark on it, the maker's figure or scales beat the estimate. The JSON has low_kg, high_kg,
    low_lb, high_lb, plan_with_kg and plan_with_lb, rounded outward to whole units, and the parts.

    Example: spindleside calc weight --diameter "8 in" --length "85 mm" --bore "55 mm"
    --material steel --jaws 3
    """
    from guide.present.worked.weight import WEIGHT

    work_out(WEIGHT, options, as_json)
