"""The walk through a procedure: machine state, interlocks, fold and proof."""
