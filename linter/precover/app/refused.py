"""What ends a command with one line and exit status 2."""


class Refused(Exception):
    """The command cannot do what it was asked; its text says why and, after a semicolon, what to do."""
