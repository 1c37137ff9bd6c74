"""A sentence that is no complaint: in sight while there is one."""

from __future__ import annotations

from textual.widgets import Static


class Notice(Static):
    """Blank at first, and then it takes no room."""

    DEFAULT_CSS = "Notice { height: auto; color: $warning; padding: 0 2; display: none; }"

    def __init__(self) -> None:
        super().__init__(markup=False)

    def tell(self, sentence: str) -> None:
        """Show a sentence; a blank one takes the last away."""
        self.update(f"! {sentence}")
        self.display = bool(sentence)
