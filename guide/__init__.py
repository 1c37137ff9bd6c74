"""The procedure assistant behind the command `spindleside`."""
