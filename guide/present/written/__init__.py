"""A procedure itself in words and as a chart, before anybody walks it."""
