"""precover: reviews a small electrical plan before anything is bought, dug or covered."""
