"""What every front end says, asks and decides alike: words, the people here, the start list."""
