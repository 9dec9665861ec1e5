"""The practice's programs, as a coach would note them: a day is lines of `exercise: prescription`, pairs lettered."""

from dataclasses import dataclass

Lines = tuple[str, ...]


@dataclass(frozen=True)
class ProgramPlan:
    """`blocks`: (name, weeks, numbers of the deload weeks). Every week of a block repeats `days`."""

    name: str
    note: str
    days: tuple[tuple[str, Lines], ...]
    blocks: tuple[tuple[str, int, tuple[int, ...]], ...]
    written_for: str = "intermediate"


UPPER_LOWER = ProgramPlan(
    "Upper and lower, four days",
    "For intermediates with a full gym. Arms are paired to save time.",
    (
        (
            "Upper A",
            (
                "barbell-bench-press: 4 x 6-10 @ 1-2, rest 180 s",
                "chest-supported-dumbbell-row: 4 x 8-12 @ 1-2, rest 120 s",
                "machine-lateral-raise: 5 x 10-15 @ 1-2, rest 75 s",
                "wide-grip-pulldown: 4 x 8-12 @ 1-2, rest 120 s",
                "A incline-dumbbell-curl: 3 x 8-12 @ 1-2, rest 60 s",
                "A overhead-cable-triceps-extension: 3 x 10-15 @ 1-2, rest 60 s",
            ),
        ),
        (
            "Lower A",
            (
                "barbell-back-squat: 3 x 6-10 @ 2-3, rest 180 s",
                "dumbbell-hip-hinge: 4 x 8-12 @ 2-3, rest 150 s",
                "leg-extension: 3 x 10-15 @ 1-2, rest 90 s",
                "standing-calf-raise-machine: 5 x 8-12 @ 1-2, rest 90 s",
                "cable-kneeling-crunch: 4 x 10-15 @ 1-2, rest 75 s",
            ),
        ),
        (
            "Upper B",
            (
                "dumbbell-incline-press: 4 x 8-12 @ 1-2, rest 150 s",
                "narrow-grip-seated-cable-row: 4 x 8-12 @ 1-2, rest 120 s",
                "machine-fly: 3 x 10-15 @ 1-2, rest 75 s",
                "A cable-one-arm-lateral-raise: 5 x 12-15 @ 0-2, rest 60 s",
                "A cable-one-arm-rear-fly: 4 x 12-15 @ 0-2, rest 60 s",
                "B cable-bar-curl: 3 x 10-12 @ 1-2, rest 60 s",
                "B cable-triceps-pushdown: 3 x 10-15 @ 1-2, rest 60 s",
            ),
        ),
        (
            "Lower B",
            (
                "leg-press: 3 x 8-12 @ 1-2, rest 150 s",
                "seated-leg-curl: 6 x 8-12 @ 1-2, rest 120 s",
                "rear-foot-raised-split-squat: 2 x 8-12 @ 1-2, rest 120 s",
                "hip-abduction-machine: 2 x 12-15 @ 1-2, rest 75 s",
                "seated-calf-raise-machine: 5 x 10-15 @ 1-2, rest 75 s",
            ),
        ),
    ),
    (("Build", 6, (6,)), ("Build on", 6, (6,)), ("Sharpen", 6, (6,))),
)

FULL_BODY = ProgramPlan(
    "Full body, three days",
    "For novices: machines and dumbbells, two to three in reserve, the same lifts often enough to learn them.",
    (
        (
            "Day 1",
            (
                "leg-press: 2-3 x 10-12 @ 2-3, rest 120 s",
                "machine-chest-press: 3 x 8-12 @ 2-3, rest 120 s",
                "neutral-grip-pulldown: 3 x 8-12 @ 2-3, rest 120 s",
                "seated-leg-curl: 3 x 10-12 @ 2-3, rest 90 s",
                "standing-dumbbell-lateral-raise: 3 x 10-15 @ 2-3, rest 75 s",
            ),
        ),
        (
            "Day 2",
            (
                "dumbbell-goblet-squat: 3 x 8-12 @ 2-3, rest 120 s",
                "seated-dumbbell-overhead-press: 2 x 8-12 @ 2-3, rest 120 s",
                "narrow-grip-seated-cable-row: 3 x 8-12 @ 2-3, rest 120 s",
                "seated-calf-raise-machine: 3 x 10-15 @ 2-3, rest 75 s",
                "A alternating-dumbbell-curl: 2 x 10-12 @ 2-3, rest 60 s",
                "A cable-triceps-pushdown: 2 x 10-12 @ 2-3, rest 60 s",
            ),
        ),
        (
            "Day 3",
            (
                "dumbbell-hip-hinge: 4 x 8-12 @ 2-3, rest 120 s",
                "push-up: 3 x 8-15 @ 2-3, rest 120 s",
                "assisted-pull-up: 3 x 6-10 @ 2-3, rest 120 s",
                "machine-lateral-raise: 3 x 10-15 @ 2-3, rest 75 s",
                "cable-kneeling-crunch: 3 x 10-15 @ 2-3, rest 75 s",
                "standing-calf-raise-machine: 4 x 10-15 @ 2-3, rest 75 s",
            ),
        ),
    ),
    (("Learn", 8, ()), ("Load", 12, (6,))),
    "novice",
)

ARMS = ProgramPlan(
    "Arms and shoulders, two days",
    "A short specialisation: both arm muscles twice a week in pairs, every head, one exercise each that loads it long.",
    (
        (
            "Long positions",
            (
                "A incline-dumbbell-curl: 3-4 x 8-12 @ 1-2, rest 75 s",
                "A overhead-cable-triceps-extension: 3-4 x 8-12 @ 1-2, rest 75 s",
                "B ez-bar-preacher-curl: 3-4 x 8-12 @ 1-2, rest 75 s",
                "B ez-bar-lying-triceps-extension: 3-4 x 8-12 @ 1-2, rest 75 s",
                "seated-dumbbell-overhead-press: 3 x 8-12 @ 1-2, rest 120 s",
                "cable-one-arm-lateral-raise: 4 x 10-15 @ 1-2, rest 60 s",
            ),
        ),
        (
            "Short positions",
            (
                "A dumbbell-hammer-curl: 3 x 8-12 @ 1-2, rest 75 s",
                "A cable-triceps-pushdown: 3 x 8-12 @ 1-2, rest 75 s",
                "B cable-bar-curl: 3 x 10-12 @ 1-2, rest 75 s",
                "B one-arm-cable-pushdown: 3 x 10-12 @ 1-2, rest 75 s",
                "machine-lateral-raise: 5 x 10-15 @ 1-2, rest 75 s",
                "machine-rear-fly: 3 x 10-15 @ 1-2, rest 75 s",
            ),
        ),
    ),
    (("First six weeks", 6, (6,)), ("Second six weeks", 6, (6,)), ("Third six weeks", 6, (6,))),
)

HOME = ProgramPlan(
    "Dumbbells at home, three days",
    "A bench, dumbbells to 24 kg and a bar over the door.",
    (
        (
            "Push and squat",
            (
                "dumbbell-split-squat: 4 x 8-12 @ 1-2, rest 120 s",
                "dumbbell-incline-press: 4 x 8-12 @ 1-2, rest 120 s",
                "standing-dumbbell-lateral-raise: 4 x 12-15 @ 1-2, rest 60 s",
                "dumbbell-overhead-triceps-extension: 4 x 10-15 @ 1-2, rest 75 s",
            ),
        ),
        (
            "Pull and hinge",
            (
                "dumbbell-hip-hinge: 4 x 10-15 @ 1-2, rest 120 s",
                "pull-up: 4 x 4-10 @ 1-2, rest 150 s",
                "one-arm-dumbbell-row: 4 x 8-12 @ 1-2, rest 90 s",
                "incline-dumbbell-curl: 4 x 8-12 @ 1-2, rest 75 s",
            ),
        ),
        (
            "All of it",
            (
                "heels-raised-dumbbell-squat: 4 x 10-15 @ 1-2, rest 120 s",
                "dumbbell-flat-press: 4 x 8-12 @ 1-2, rest 120 s",
                "one-leg-dumbbell-calf-raise: 4 x 10-15 @ 1-2, rest 60 s",
                "dumbbell-floor-crunch: 4 x 10-15 @ 1-2, rest 60 s",
            ),
        ),
    ),
    (("Months one and two", 9, ()), ("Months three and four", 10, (9,))),
)

HIGH_VOLUME = ProgramPlan(
    "High volume, five days",
    "For the advanced, and only for a while: more sets than most people recover from.",
    (
        (
            "Chest and shoulders",
            (
                "barbell-bench-press: 5 x 6-10 @ 0-1, rest 150 s",
                "dumbbell-incline-press: 4 x 8-12 @ 0-1, rest 120 s",
                "machine-fly: 3 x 10-15 @ 0-1, rest 90 s",
                "machine-lateral-raise: 6 x 10-15 @ 0-1, rest 75 s",
            ),
        ),
        (
            "Back",
            (
                "pull-up: 5 x 5-10 @ 0-1, rest 150 s",
                "barbell-bent-over-row: 4 x 6-10 @ 1-2, rest 150 s",
                "wide-grip-seated-cable-row: 4 x 8-12 @ 0-1, rest 120 s",
                "machine-rear-fly: 3 x 10-15 @ 0-1, rest 75 s",
            ),
        ),
        (
            "Thighs, front",
            (
                "barbell-back-squat: 5 x 6-10 @ 1-2, rest 180 s",
                "leg-press: 4 x 8-12 @ 0-1, rest 150 s",
                "leg-extension: 4 x 10-15 @ 0-1, rest 90 s",
                "standing-calf-raise-machine: 6 x 8-12 @ 0-1, rest 75 s",
            ),
        ),
        (
            "Arms",
            (
                "A incline-dumbbell-curl: 4 x 8-12 @ 0-1, rest 75 s",
                "A overhead-cable-triceps-extension: 4 x 8-12 @ 0-1, rest 75 s",
                "cable-one-arm-lateral-raise: 5 x 12-15 @ 0-1, rest 60 s",
                "B cable-bar-curl: 4 x 10-12 @ 0-1, rest 75 s",
                "B cable-triceps-pushdown: 4 x 10-15 @ 0-1, rest 75 s",
            ),
        ),
        (
            "Thighs, back",
            (
                "barbell-hip-hinge: 4 x 6-10 @ 1-2, rest 180 s",
                "seated-leg-curl: 6 x 8-12 @ 0-1, rest 120 s",
                "barbell-hip-thrust: 3 x 8-12 @ 1-2, rest 120 s",
                "seated-calf-raise-machine: 6 x 10-15 @ 0-1, rest 75 s",
                "hanging-leg-raise: 5 x 8-15 @ 1-2, rest 75 s",
            ),
        ),
    ),
    (("Push", 20, ()),),
    "advanced",
)

# Written as a base week; its five weeks come from the ramp (demo/practice/fitted.py).
RISING = ProgramPlan(
    "Arms, five weeks rising",
    "One base week and a ramp: sets and effort rise for four weeks, the fifth is a deload. Fitted to each client.",
    (
        (
            "Lengthened",
            (
                "A incline-dumbbell-curl: 3 x 8-12 @ 1-2, rest 75 s",
                "A overhead-cable-triceps-extension: 3 x 8-12 @ 1-2, rest 75 s",
                "dumbbell-incline-press: 3 x 8-12 @ 1-2, rest 120 s",
                "wide-grip-pulldown: 3 x 8-12 @ 1-2, rest 120 s",
                "machine-lateral-raise: 3 x 12-15 @ 1-2, rest 75 s",
            ),
        ),
        (
            "Shortened",
            (
                "A cable-bar-curl: 3 x 8-12 @ 1-2, rest 75 s",
                "A cable-triceps-pushdown: 3 x 8-12 @ 1-2, rest 75 s",
                "dumbbell-goblet-squat: 3 x 8-12 @ 2-3, rest 120 s",
                "narrow-grip-seated-cable-row: 3 x 8-12 @ 1-2, rest 120 s",
            ),
        ),
    ),
    (("Rise", 1, ()),),
)

PLANS = {"upper_lower": UPPER_LOWER, "full_body": FULL_BODY, "arms": ARMS, "home": HOME, "high_volume": HIGH_VOLUME}
