"""One file for each kind of step: what is read out and asked, and what is entered."""
