"""`spindleside calc sling`: the pull in each leg of a sling."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--load", required=True, help="All that hangs, with its unit: 20 kg or 50 lb.")
@click.option("--legs", required=True, help="How many legs, 1 to 4; of 3 and 4 two are counted.")
@click.option("--angle", help="Degrees from the horizontal: 90 hangs straight.")
@click.option("--included", help="Degrees between two opposite legs, as UK tables count.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def sling(as_json: bool, **options: str | None) -> None:
    """The pull in each leg: load over legs over the sine of the angle from the horizontal.

    Below 30° there is no figure: rig again. It says nothing of what the sling is good for. The
    JSON has leg_tension in the load's unit and in both, factor, sideways, legs_counted, why_not.

    \b
    Example:
      spindleside calc sling --load "120 kg" --legs 2 --angle 60
    """
    from guide.present.worked.sling import SLING

    work_out(SLING, options, as_json)
