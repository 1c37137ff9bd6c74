"""One file for each step kind on the setup sheet."""
