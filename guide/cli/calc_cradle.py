"""`spindleside calc cradle`: height and vee of a cradle for a chuck."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--centre", required=True, help="The spindle's axis above the surface: 170 mm.")
@click.option("--diameter", required=True, help="Diameter of the chuck body: 200 mm or 8 in.")
@click.option("--vee", help="Degrees between the flanks; 90 unless given.")
@click.option("--opening", help="Width of the vee at its top.")
@click.option("--under", help="The least that is to be left under the vee's root.")
@click.option("--varies", help="Largest less smallest diameter of the body.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def cradle(as_json: bool, **options: str | None) -> None:
    """Where the vee has to be so that the chuck's axis meets the nose, and what a shim does.

    The surface is what the cradle stands on: the ways, the bed or a board on them. The JSON has
    root_height_mm, contact_width_mm, contact_half_angle_deg, flank_to_contact_mm,
    clearance_under_chuck_mm, gap_to_root_mm, rise_per_shim_on_both_flanks, axis_moves_mm, why_not.

    \b
    Example:
      spindleside calc cradle --centre "170 mm" --diameter "200 mm" --vee 90
    """
    from guide.present.worked.cradle import CRADLE

    work_out(CRADLE, options, as_json)
