"""Screens that ask one thing and give one answer."""
