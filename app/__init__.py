"""Evenload: home strength sessions that answer to the body that does them."""

__version__ = "0.1.0"
