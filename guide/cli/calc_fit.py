"""`spindleside calc fit`: how far a body can be shifted on its plate's register."""

from __future__ import annotations

import click

from guide.cli.answering import work_out

OF = click.Choice(["steel", "cast-iron"])


@click.command()
@click.option("--plate", required=True, help="Register of the plate, across: 160.00 mm.")
@click.option("--body", required=True, help="Recess of the body, across: 160.25 mm.")
@click.option("--plate-u", help="The ± of the plate's measurement, k = 2: 0.01 mm.")
@click.option("--body-u", help="The ± of the body's measurement, k = 2.")
@click.option("--runout", help="The full runout (TIR) to be taken out; the body goes half of it.")
@click.option("--plate-material", type=OF, help="For the temperature remark; steel unless given.")
@click.option("--plate-temperature", help="With its unit: 21 C or 70 F.")
@click.option("--body-material", type=OF, help="For the temperature remark; steel unless given.")
@click.option("--body-temperature", help="With its unit.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def fit(as_json: bool, **options: str | None) -> None:
    """Clearance, how far the body can go each way, and whether a runout is within reach.

    The JSON has clearance_mm, clearance_uncertainty_mm, travel_each_way_mm, interference,
    wanted_mm and within_reach, the last three yes, no or undecided within the uncertainty.

    \b
    Example:
      spindleside calc fit --plate "160.00 mm" --body "160.25 mm" --plate-u "0.01 mm"
        --body-u "0.02 mm" --runout "0.10 mm"
    """
    from guide.present.worked.fit import FIT

    work_out(FIT, options, as_json)
