"""The shop calculators as they are asked and answered, one file each."""
