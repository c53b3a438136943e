"""The disconnecting means at the outbuilding."""
