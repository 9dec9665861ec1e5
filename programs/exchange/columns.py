"""The columns of a program as a table, in the order in which they are written."""

from programs.sheets.layout import Column, Layout

# The headings are the format and not translated: a file is read the same everywhere.
COLUMNS = (
    Column("block", "Block", ("mesocycle", "phase"), carries=True),
    Column("week", "Week", ("week number", "microcycle"), carries=True),
    Column("deload", "Deload", ("deload week",)),
    Column("week_note", "Week note", ("note on the week",)),
    Column("day", "Day", ("training day", "session"), needed=True, carries=True),
    Column("pair", "Pair", ("paired", "paired sets")),
    Column("exercise", "Exercise", ("movement",), needed=True),
    Column("sets", "Sets", ("hard sets", "set"), needed=True),
    Column("reps", "Reps", ("repetitions", "rep range", "rep"), needed=True),
    Column("rir", "RIR", ("reps in reserve", "repetitions in reserve")),
    Column("rest", "Rest", ("rest s", "rest seconds")),
    Column("tempo", "Tempo"),
    Column("note", "Note", ("notes", "note on the exercise")),
)
PROGRAM = Layout(
    "program",
    COLUMNS,
    enough=3,
    example="Block, Week, Day, Exercise, Sets, Reps",
    most_rows=5000,
    # Bytes: the preview sends the table back, and a form may hold two and a half million.
    most_text=2_000_000,
    too_large="program_too_large",
    widths={"block": 18, "week_note": 24, "day": 18, "exercise": 42, "note": 40},
)
