"""Evenload: home strength sessions that answer to the body that does them."""
