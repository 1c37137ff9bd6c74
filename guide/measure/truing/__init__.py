"""The rooms behind the one advisor (`guide.measure.advice`): what was heard, believed and asked."""
