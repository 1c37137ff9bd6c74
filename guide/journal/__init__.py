"""The append-only audit trail in one SQLite file."""
