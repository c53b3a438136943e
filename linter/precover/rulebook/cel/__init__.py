"""Requirements in CEL, the Common Expression Language: read by its grammar, checked against the things of a plan, and run
with the unknown-fact logic of every rule. Nothing here runs code of a pack."""
