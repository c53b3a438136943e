"""The built-in rules: one folder a subject, one module and one document a topic."""
