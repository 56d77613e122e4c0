"""The pieces that every screen is set from."""
from app.ui.parts.buttons import Look, bind
from app.ui.parts.choices import AnswerOption, options
from app.ui.parts.frame import Card, Destination, Nav
from app.ui.parts.text_scale import probe

__all__ = ["AnswerOption", "Card", "Destination", "Look", "Nav", "bind", "options", "probe"]
