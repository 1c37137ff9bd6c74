"""Who may act at the lathe: names, roles, keys, and the shop's rules, all from the journal."""
