"""The pieces that every screen is set from."""
from app.ui.parts.buttons import Look, bind
from app.ui.parts.choices import Option, options
from app.ui.parts.frame import Card, Destination, Nav
from app.ui.parts.text_scale import probe

__all__ = ["Card", "Destination", "Look", "Nav", "Option", "bind", "options", "probe"]
