"""`spindleside calc bar`: bending and sag of a handling bar that carries a chuck."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--load", required=True, help="What hangs on it: 25 kg or 55 lb.")
@click.option("--diameter", required=True, help="Diameter of the bar: 40 mm or 1 1/2 in.")
@click.option("--bore", help="Bore of a tube; leave it out for a solid bar.")
@click.option(
    "--way",
    type=click.Choice(["both-ends", "one-end"]),
    required=True,
    help="Resting on both ends, or held at one and free at the other.",
)
@click.option("--length", required=True, help="Between the supports, or the overhang.")
@click.option("--at", help="The load from the end; the middle, or the free end, unless given.")
@click.option("--yield", "yield_", help="Yield strength of the bar: 350 MPa or 50 ksi.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def bar(as_json: bool, yield_: str | None, **options: str | None) -> None:
    """Largest bending stress and the sag at the chuck, of a round steel bar and its own weight.

    It is never said that a bar is enough. The JSON has second_moment_mm4, bending_moment_nm,
    bending_stress_mpa, sag_mm, bar_kg, yield_over_stress, why_not and notes.

    \b
    Example:
      spindleside calc bar --load "25 kg" --diameter "40 mm" --way both-ends --length "600 mm"
        --yield "350 MPa"
    """
    from guide.present.worked.bar import BAR

    work_out(BAR, {**options, "yield": yield_}, as_json)
