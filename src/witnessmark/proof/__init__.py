"""The checks: one file a check, listed once, in order."""
