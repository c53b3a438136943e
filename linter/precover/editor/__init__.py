"""The language server: reviews in an editor, as the plan is written."""
