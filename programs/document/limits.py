"""Bounds of what may be written. Chosen: wide enough for any real plan, narrow enough to catch a slip of the finger."""

SETS = (1, 20)
REPS = (1, 100)
RIR = (0, 10)
REST_S = (0, 900)
KEY = 24
NAME = 80
NOTE = 300
TEMPO = 12
BLOCKS = 24
WEEKS = 26
# One training day a weekday: dates of an assignment come from weekdays.
DAYS = 7
SLOTS = 30
# Ramps: sets a week of one muscle group's own slots, per cent of load added a week, and load against the first week's.
GROUP_SETS = (1, 100)
LOAD_PCT_A_WEEK = (0, 10)
LOAD_PCT = (0, 400)
GROUPS = 100
SLUG = 50
