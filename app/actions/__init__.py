"""What people do with the tool: load, decide, save; one transaction each."""
