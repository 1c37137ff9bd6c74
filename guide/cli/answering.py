"""A calculator's options turned into its answer, and the answer printed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from guide.cli.output import emit
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.present.asked import Calculator


def work_out(calculator: Calculator, options: Mapping[str, object], as_json: bool) -> None:
    """Work it out from the options as typed, in the user's language, and print it."""
    from guide.present.asked import Typed

    language = from_environment().language
    typed = {
        name.replace("_", "-"): str(value) for name, value in options.items() if value is not None
    }
    found = calculator.work(Typed(typed, language))
    emit(found.plain, as_json, calculator.told(found, language))
