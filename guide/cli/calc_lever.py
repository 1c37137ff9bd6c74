"""`spindleside calc lever`: readings of a lever indicator, put right for its angle."""

from __future__ import annotations

import click

from guide.cli.answering import work_out


@click.command()
@click.option("--readings", required=True, help='What the dial shows: "0.200" or "0 12 20 8".')
@click.option("--angle", required=True, help="Degrees of the lever to the surface, 0 to 60.")
@click.option(
    "--correction",
    type=click.Choice(["cosine", "none"]),
    default="cosine",
    show_default=True,
    help="Leave as read for an involute tip.",
)
@click.option("--true-at", help="The angle at which this lever reads true; 0 unless given.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def lever(as_json: bool, **options: str | None) -> None:
    """Multiply by the cosine of the contact angle, or leave as read: that is a choice.

    Some levers are built to read true near 12° or have an involute tip: their sheet says so. The
    JSON has readings, factor, corrected and correction.

    \b
    Example:
      spindleside calc lever --readings "0.200" --angle 30
    """
    from guide.present.worked.lever import LEVER

    work_out(LEVER, options, as_json)
