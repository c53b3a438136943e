"""Topics of Orchard Valley (invented)."""
