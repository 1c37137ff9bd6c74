"""The shop calculators: one public function each, with its formula, source and limits."""
