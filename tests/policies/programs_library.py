"""The library: everyone who is signed in reads it; coaches write what their own practice added."""

from programs.models import Equipment, Exercise
from tests.policies import COACHES_HERE, MEMBERS, SIGNED_IN, Policy, only

# The practice's own rows: its coaches write, its clients read, strangers must not learn that they exist.
READERS_HERE = only(*COACHES_HERE, "client", "other_client")
# Adding is for coaches of any practice; the pages themselves are no secret.
ADDING = only(*MEMBERS, otherwise=403)


def writing(status):
    return only(*COACHES_HERE, status=status, client=403, other_client=403)


def extend(world):
    grades = {f"grade_{name}": 3 for name in ("activation", "long_length", "loadability", "near_failure")}
    rack = Equipment.objects.create(
        practice=world.practice,
        slug="rack",
        name="Our rack",
        kind="dumbbells",
        ladder={"kind": "listed", "values": [2]},
    )
    shared = Equipment.objects.create(slug="walk-bench", name="bench", kind="none", ladder={"kind": "none"})
    world.own_equipment = rack
    world.own_exercise = Exercise.objects.create(
        practice=world.practice, slug="own", name="Ours", equipment=rack, set_up="Sit.", **grades
    )
    world.library_exercise = Exercise.objects.create(
        slug="walk-exercise", name="Shared", equipment=shared, set_up="Stand.", **grades
    )


def own_exercise(world):
    return {"exercise_id": world.own_exercise.pk}


def own_equipment(world):
    return {"equipment_id": world.own_equipment.pk}


def rack(world):
    return {"name": "Rack", "kind": "dumbbells", "unit": "kg", "values": "2, 4"}


POLICIES = {
    "exercise-list": Policy(get=SIGNED_IN),
    "exercise-detail": Policy(kwargs=own_exercise, get=READERS_HERE),
    # An empty form is refused with its faults to those who may write, before that to those who may not.
    "exercise-create": Policy(get=ADDING, post=only(*MEMBERS, status=422, otherwise=403)),
    "exercise-edit": Policy(kwargs=own_exercise, get=writing(200), post=writing(422)),
    "exercise-archive": Policy(kwargs=own_exercise, post=writing(302)),
    "exercise-restore": Policy(kwargs=own_exercise, post=writing(302)),
    "exercise-grades": Policy(
        kwargs=lambda world: {"exercise_id": world.library_exercise.pk},
        get=ADDING,
        post=only(*MEMBERS, status=302, otherwise=403),
        data=lambda world: {"activation": "2", "activation_reason": "Because."},
    ),
    "equipment-list": Policy(get=SIGNED_IN),
    "equipment-detail": Policy(kwargs=own_equipment, get=READERS_HERE),
    "equipment-create": Policy(get=ADDING, post=only(*MEMBERS, status=302, otherwise=403), data=rack),
    "equipment-edit": Policy(kwargs=own_equipment, get=writing(200), post=writing(302), data=rack),
    "equipment-archive": Policy(kwargs=own_equipment, post=writing(302)),
    "equipment-restore": Policy(kwargs=own_equipment, post=writing(302)),
    "anatomy": Policy(get=SIGNED_IN),
}
