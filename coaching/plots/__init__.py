"""What stands in a plot, in the table beside it and in the file to download: one Plot each, from derived rows only."""
