"""Indicators on a serial wire: how each is set, what it sends, and what that means."""
