"""The schedule pages on this machine, for a browser or for the phones of the workshop."""
