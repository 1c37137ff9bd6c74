"""A procedure's setup sheet before anybody has written on it, to hang at the machine."""
