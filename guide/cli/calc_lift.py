"""`spindleside calc lift`: the revised NIOSH lifting equation for one person's lift."""

from __future__ import annotations

import click

from guide.cli.answering import work_out
from guide.plain import N_, BadInput
from guide.shop.lift_limits import OUTSIDE

UNIT_HELP = "metric: cm and kg; us: in and lb; for every figure."


@click.command()
@click.option("--h", required=True, help="H: from between the ankles forward to the hands.")
@click.option("--v", required=True, help="V: from the floor up to the hands, at the start.")
@click.option("--d", help="D: how far up or down; worked out when --destination is given.")
@click.option("--a", default="0", help="A: degrees the body turns from straight ahead (0).")
@click.option("--destination", help='"H V A" where it is set down with care; the lower end holds.')
@click.option("--per-minute", default="0.2", help="Lifts a minute; 0.2 or less for a single lift.")
@click.option("--for-minutes", help="Minutes of lifting in any 15, if not steady.")
@click.option("--hours", help="How long the lifting goes on, at most 8 (1).")
@click.option("--sessions", help='Minutes of lifting, recovery, lifting: "30 10 45".')
@click.option(
    "--coupling",
    type=click.Choice(["good", "fair", "poor"]),
    required=True,
    help="The grip: handles, or fingers under at 90°, or neither.",
)
@click.option("--load", help="What it weighs; use the heavier end of an estimate.")
@click.option("--unit", type=click.Choice(["metric", "us"]), required=True, help=UNIT_HELP)
@click.option(
    "--condition",
    multiple=True,
    type=click.Choice(list(OUTSIDE)),
    help="Anything that holds here; each is outside the equation. May be repeated.",
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def lift(as_json: bool, condition: tuple[str, ...], **options: str | None) -> None:
    """Recommended weight limit and lifting index of one person's lift with two hands, standing.

    The revised NIOSH equation (DHHS 94-110). Outside its limits there is no figure. An index is
    never permission; two people or a hoist are outside it, and leaning over a lathe bed may be:
    then say --condition restricted-space. Up to an hour of lifting needs 1.2 times as much
    recovery before more, up to two hours 0.3 times; --sessions adds up what had less.

    Example: spindleside calc lift --unit us --h 18 --v 30 --a 30 --destination "24 42 0"
    --coupling fair --load 50
    """
    from guide.present.worked.lift import LIFT

    if options["hours"] is not None and options["sessions"] is not None:
        raise BadInput(
            N_("Hours and sessions both say how long the lifting goes on."),
            N_("Give one of them."),
        )
    work_out(LIFT, {**options, "condition": " ".join(condition)}, as_json)
