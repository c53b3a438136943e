"""Ground-fault protection of people."""
