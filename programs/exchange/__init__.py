"""Programs out of the software and in again: our own JSON, and a table for spreadsheets (docs/formats/program.md).

JSON holds everything and comes back the same to the byte. A table holds what is written on paper: one row an exercise.
"""
