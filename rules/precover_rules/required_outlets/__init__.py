"""What an outbuilding with power must have: receptacles, lights and their switches."""
