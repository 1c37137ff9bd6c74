"""The trade's words with what each means, by what they are about."""
