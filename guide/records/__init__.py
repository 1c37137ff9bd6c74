"""The record of a setup and its written forms."""
