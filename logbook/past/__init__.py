"""Past training as tables: what the columns are, and what their cells mean (docs/formats/log.md)."""
