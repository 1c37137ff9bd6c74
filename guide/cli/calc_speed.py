"""`spindleside calc speed`: the lowest of the marked speeds, and the speed of a cut."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--chuck", help="Marked on the chuck, rev/min; or missing, or damaged.")
@click.option("--lathe", help="The lathe's highest speed, rev/min; or missing, or damaged.")
@click.option("--work", help="What the workpiece or a bar sticking out may turn at.")
@click.option("--cutting", help="Cutting speed: 30 m/min or 100 ft/min.")
@click.option("--diameter", help="Diameter that is cut: 50 mm or 2 in.")
@click.option("--body", help="Diameter of the chuck body, for the speed of its rim.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def speed(as_json: bool, **options: str | None) -> None:
    """The lowest of the marks, the speed of a cut, and how fast the body's rim goes.

    A mark that is missing or damaged means no figure: find the maker's first. How much grip the
    jaws lose with speed is the maker's to say and is not in it. The JSON has lowest_rpm, set_by,
    rpm_for_cut, rim_m_s, rim_ft_min, why_not and notes.

    \b
    Example:
      spindleside calc speed --chuck 2000 --lathe 1800 --cutting "100 ft/min" --diameter "2 in"
    """
    from guide.present.worked.speed import SPEED

    work_out(SPEED, options, as_json)
