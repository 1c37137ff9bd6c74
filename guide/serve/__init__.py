"""The same screens on a page: a server for this machine, or for one address that is named."""
