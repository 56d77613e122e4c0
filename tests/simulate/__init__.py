"""Weeks of many kinds of client through the real actions, to see who moves on, who is held and who is told of."""
