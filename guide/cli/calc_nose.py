"""`spindleside calc nose`: which spindle nose it is, and which plate it needs."""

from __future__ import annotations

import click

from guide.cli.answering import work_out

OF = click.Choice(["camlock", "long", "bolted", "threaded"])


@click.command()
@click.option("--kind", required=True, type=OF, help="What the nose looks like.")
@click.option("--diameter", help="Short taper across, close to the face: 106.38 mm or 4.188 in.")
@click.option("--diameter-u", help="The ± of that measurement, k = 2: 0.05 mm.")
@click.option("--pins", help="How many holes for pins the flange has: 3 or 6.")
@click.option("--circle", help="Circle of the pin holes, across: 133.4 mm or 5.25 in.")
@click.option("--circle-u", help="The ± of that measurement, k = 2.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def nose(as_json: bool, **options: str | None) -> None:
    """Which cam-lock size a nose is, or between which it lies, or none of these.

    Only D1-3, -4, -5, -6, -8 and -11 have a table here. Of a long taper it says what was seen in
    print, of a bolted or threaded nose what to measure; their sizes stand in the maker's manual.
    The JSON has kind, answer (one, undecided, none or no-table), size, between, contradicts, pins,
    pin_mm, pin_circle_mm, included_angle_deg and notes.

    \b
    Example:
      spindleside calc nose --kind camlock --diameter "106.30 mm" --diameter-u "0.05 mm" --pins 6
        --circle "133.2 mm" --circle-u "0.3 mm"
    """
    from guide.present.worked.nose import NOSE

    work_out(NOSE, options, as_json)
