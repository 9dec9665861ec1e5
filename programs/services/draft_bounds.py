"""Bounds of what may be asked of a draft. Chosen: wide enough for any real week, narrow enough to catch a slip."""

MINUTES = (10, 240)
SECONDS = (2, 60)
MOST_SECONDS = SECONDS[1]
SEED = (0, 999_999)
SETS_A_WEEK = (0, 60)
SETS_A_DAY = (1, 30)
SLOTS_A_DAY = (1, 20)
EXERCISES_OF_GROUP = (0, 9)
REPS = (1, 100)
# Exercises that end badly near failure get one repetition more in reserve, and the set must still be a hard one.
RIR = (0, 3)
WEIGHT = (0, 1000)
LISTED = 30
