"""The shop's lathes, chucks, indicators and bars, as a chain of events in the same journal."""
