"""Metrology: pure functions on frozen records."""
