"""The columns of past training, in the order in which they are written: one table of sets, one of days."""

from programs.sheets.layout import Column, Layout

MOST_ROWS = 20_000
# Bytes unpacked; the preview sends the table back packed (programs/sheets/packed.py).
MOST_TEXT = 8_000_000

SETS = Layout(
    "sets",
    (
        Column("date", "Date", ("day", "training date", "workout date"), needed=True, carries=True),
        Column("session", "Session", ("session name", "workout"), carries=True),
        Column("exercise", "Exercise", ("movement", "exercise name"), needed=True, carries=True),
        Column("set", "Set", ("set number", "set no", "set order")),
        Column("warm_up", "Warm-up", ("warmup", "warm up set")),
        Column("side", "Side"),
        Column(
            "load", "Load", ("weight", *(f"{one} {unit}" for one in ("load", "weight") for unit in ("kg", "lb", "lbs")))
        ),
        Column("unit", "Unit", ("unit of load", "weight unit")),
        Column("reps", "Reps", ("repetitions", "rep", "seconds", "steps"), needed=True),
        Column("rir", "RIR", ("reps in reserve", "repetitions in reserve")),
        Column("note", "Note", ("notes", "note on the set")),
        Column("session_rpe", "Session RPE", ("srpe", "rpe of the session")),
        Column("minutes", "Minutes", ("min", "duration", "duration min", "session minutes")),
        Column("session_note", "Session note", ("note on the session", "session notes")),
    ),
    enough=3,
    example="Date, Exercise, Set, Load, Reps, RIR",
    most_rows=MOST_ROWS,
    most_text=MOST_TEXT,
    too_large="past_too_large",
    widths={"date": 12, "session": 16, "exercise": 42, "note": 30, "session_note": 40},
)
DAYS = Layout(
    "days",
    (
        Column("date", "Date", ("day",), needed=True),
        Column("fatigue", "Fatigue"),
        Column("sleep", "Sleep", ("sleep quality",)),
        Column("soreness", "Soreness", ("muscle soreness",)),
        Column("stress", "Stress"),
        Column("mood", "Mood"),
        Column("mass", "Body mass", ("body weight", "bodyweight", "body mass kg", "body mass lb", "body weight kg",
                                     "body weight lb")),
        Column("unit", "Unit", ("unit of body mass",)),
        Column("note", "Note", ("notes",)),
    ),
    enough=2,
    example="Date, Fatigue, Sleep, Soreness, Stress, Mood, Body mass",
    most_rows=MOST_ROWS,
    most_text=MOST_TEXT,
    too_large="past_too_large",
    widths={"date": 12, "note": 40},
)  # fmt: skip
LAYOUTS = (SETS, DAYS)
BY_KEY = {layout.key: layout for layout in LAYOUTS}
