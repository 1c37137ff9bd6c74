"""A front end of lines alone, for screen readers and plain terminals: it asks, and is answered."""
