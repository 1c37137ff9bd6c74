"""Small widgets that take plain values and post messages."""
