"""The people of the invented practice. Names are made up; any likeness is chance."""

from dataclasses import dataclass

PRACTICE = "Kestrel Lane Strength"
DOMAIN = "demo.example"
PASSWORD = "ledger-of-lifts"  # noqa: S105 - printed on the screen by scripts/demo, for invented people only


@dataclass(frozen=True)
class Person:
    """`truth` names the simulated course (demo/cohort): what really happens to this client, unknown to the program."""

    name: str
    coach: str
    plan: str
    truth: str = "steady"
    status: str = "intermediate"
    unit: str = "kg"
    zone: str = "Europe/Berlin"
    weekdays: tuple[int, ...] = ()
    mass_kg: float = 75.0
    focus: tuple[str, ...] = ()
    weeks: int = 16


OWNER = "Marit Osterholt"
COACHES = ("Ines Valdarno", "Tobias Renk")

PEOPLE = (
    # Trains on Saturdays, so that a question about more sets stands on every day of the week.
    Person("Ada Brandvold", "Ines Valdarno", "upper_lower", weekdays=(0, 1, 3, 5), mass_kg=64, focus=("glutes",)),
    Person("Benno Achterfeld", "Ines Valdarno", "high_volume", truth="overreaching", status="advanced", mass_kg=88),
    Person("Cleo Marchetti-Holm", "Ines Valdarno", "arms", truth="sore_elbow", weekdays=(2, 5), mass_kg=71),
    Person("Darius Feldkamp", "Ines Valdarno", "upper_lower", truth="stops_coming", mass_kg=82),
    Person("Edda Nygaard", "Ines Valdarno", "full_body", truth="novice", status="novice", mass_kg=68),
    Person("Farid Sandoval", "Ines Valdarno", "upper_lower", unit="lb", zone="America/Chicago", mass_kg=91),
    Person("Greta Lindqvist-Amo", "Ines Valdarno", "home", mass_kg=59),
    Person("Hanno Petrescu", "Ines Valdarno", "full_body", truth="novice", status="novice", mass_kg=97),
    Person("Ilka Tomasson", "Ines Valdarno", "arms", mass_kg=62, focus=("biceps", "triceps")),
    Person("Jonas Wederkop", "Ines Valdarno", "upper_lower", truth="misses_sessions", mass_kg=79),
    Person("Kaja Oyelaran", "Ines Valdarno", "high_volume", truth="overreaching", status="advanced", mass_kg=70),
    Person("Lorenz Abernethy-Voss", "Ines Valdarno", "home", truth="ill_for_a_week", mass_kg=84),
    Person("Mina Castellan", "Ines Valdarno", "upper_lower", mass_kg=57, focus=("lats",)),
    Person("Nils Arrowood", "Ines Valdarno", "full_body", status="novice", truth="novice", mass_kg=76),
    Person("Oona Brightwater", "Tobias Renk", "upper_lower", zone="Pacific/Auckland", mass_kg=66),
    Person("Pavel Dunmore-Iseri", "Tobias Renk", "arms", truth="easy_sets", mass_kg=86),
    Person("Quirin Halvard", "Tobias Renk", "home", unit="lb", zone="America/New_York", mass_kg=80),
    Person("Rosa Ellingsworth", "Tobias Renk", "full_body", status="novice", mass_kg=73),
    Person("Simon Tveit", "Tobias Renk", "upper_lower", truth="one_lift_falls_back", weekdays=(0, 2, 4, 5), mass_kg=90),
    Person("Tessa Okonjo-Reyes", "Tobias Renk", "high_volume", status="advanced", mass_kg=65),
    Person("Ulf Kaminsky-Dale", "Tobias Renk", "upper_lower", truth="bad_sleep", mass_kg=83),
    Person("Vera Sommarlund", "Tobias Renk", "home", truth="misses_sessions", mass_kg=61),
    Person("Wim Achebe", "Tobias Renk", "arms", mass_kg=77),
    Person("Yara Finsterwald", "Tobias Renk", "full_body", status="novice", truth="novice", mass_kg=69, weeks=3),
)
