"""A procedure file read into a frozen model that keeps its line numbers."""
