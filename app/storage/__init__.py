"""Where everything is kept: SQLite on a device, PostgreSQL for a team. Domain values in and out, never rows."""
