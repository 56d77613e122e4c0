"""What the tool knows about training. The standard library alone, and no clock, file or wording."""
