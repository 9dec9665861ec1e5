"""What the desk's pages show: rows that the worker derived, brought together. Nothing is computed here."""
