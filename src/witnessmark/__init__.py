"""Witnessmark: what a repair video says, read from its captions and checked before it is published."""

__version__ = "0.1.0"
