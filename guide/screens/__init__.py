"""The Textual screens."""
