"""`spindleside calc balance`: a balance grade, and what truing does to the balance."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--grade", required=True, help="Balance grade G in mm/s, the maker's: 6.3.")
@click.option("--rpm", help="The speed to compare at, in rev/min.")
@click.option("--mass", help="What the body that was shifted weighs: 20 kg or 44 lb.")
@click.option("--shift", help="How far it was shifted, half the change of runout: 0.05 mm.")
@click.option("--turning", help="What all that turns weighs; the body alone unless given.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def balance(as_json: bool, **options: str | None) -> None:
    """What a grade stands for at a speed, and what a shift of the body amounts to by itself.

    The JSON has permissible_eccentricity_um, permissible_unbalance_gmm, unbalance_gmm,
    specific_unbalance_um, grade_reached, rpm_at_grade and force_n, and their inch forms. The speed
    at which the shift amounts to the grade is a comparison, never a speed to run at.

    \b
    Example:
      spindleside calc balance --grade 6.3 --rpm 1200 --mass "20 kg" --shift "0.05 mm"
    """
    from guide.present.worked.balance import BALANCE

    work_out(BALANCE, options, as_json)
