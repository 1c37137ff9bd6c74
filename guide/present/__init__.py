"""A state turned into words and pictures, with no terminal in it."""
