"""Electrical computations: pure functions of typed values, each with its units and source, none of them of a plan.

A rule reads numbers from tables with `look.cell`, hands them in, and notes the `steps` of what comes back. Decisions are
computed exactly (fractions); only phasors, bends and pulls are floats.
"""
