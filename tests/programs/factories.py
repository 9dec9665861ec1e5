"""A little library of invented exercises, so that tests do not depend on what the real one says."""

from types import SimpleNamespace

from programs.models import Equipment, Exercise, ExerciseLink, Head, HeadCredit, Muscle, MuscleGroup
from programs.services.program_write import program_create


def make_group(slug: str, position: int = 0) -> MuscleGroup:
    return MuscleGroup.objects.create(slug=slug, name=slug, region="arm", position=position)


def make_head(slug: str, group: MuscleGroup | None, muscle: Muscle | None = None) -> Head:
    muscle = muscle or Muscle.objects.create(slug=slug, name=slug, latin=slug, ta98="A0", lay_name=f"lay {slug}")
    return Head.objects.create(muscle=muscle, group=group, slug=slug, name=slug)


def make_exercise(name: str, credits: dict[Head, float], practice=None, **fields: object) -> Exercise:
    slug = name.lower().replace(" ", "-")
    equipment = (
        fields.pop("equipment", None)
        or Equipment.objects.get_or_create(
            slug="bar", practice=None, defaults={"name": "bar", "kind": "none", "ladder": {"kind": "none"}}
        )[0]
    )
    grades = dict.fromkeys(("grade_activation", "grade_long_length", "grade_loadability", "grade_near_failure"), 4)
    exercise = Exercise.objects.create(
        practice=practice, slug=slug, name=name, equipment=equipment, set_up="Stand.", **{**grades, **fields}
    )
    HeadCredit.objects.bulk_create(HeadCredit(exercise=exercise, head=h, credit=c) for h, c in credits.items())
    return exercise


def make_library() -> SimpleNamespace:
    """`curl`, `hammer`, `reach` train the biceps, `press`, `push` the triceps; `row` the lats, and the biceps half."""
    biceps, triceps, lats = make_group("biceps", 1), make_group("triceps", 2), make_group("lats", 3)
    bi, tri, lat = make_head("biceps-head", biceps), make_head("triceps-head", triceps), make_head("lats-head", lats)
    grip = make_head("grip-head", None)
    made = SimpleNamespace(biceps=biceps, triceps=triceps, lats=lats, bi=bi, tri=tri, lat=lat, grip=grip)
    made.curl = make_exercise("Wand curl", {bi: 1}, cautions=["Start lighter than you think."])
    made.hammer = make_exercise("Hammer grip curl", {bi: 1, grip: 0.5})
    made.reach = make_exercise("Long reach curl", {bi: 1})
    made.press = make_exercise("Overhead wand press-down", {tri: 1})
    made.push = make_exercise("Close push", {tri: 1})
    made.row = make_exercise("Slow row", {lat: 1, bi: 0.5})
    ExerciseLink.objects.create(exercise=made.curl, other=made.reach, kind=ExerciseLink.Kind.SUBSTITUTE)
    return made


def slot(key: str, exercise: int, sets: object = 3, **fields: object) -> dict[str, object]:
    return {"key": key, "exercise": exercise, "pair": "", "sets": sets, "reps": [8, 12], "rir": [1, 2],
            "rest_s": 120, "tempo": "", "note": "", **fields}  # fmt: skip


def document(*days: list[dict[str, object]], weeks: int = 1) -> dict[str, object]:
    """Return a program of one block whose weeks hold these days; keys get the week's number."""

    def week(number: int) -> dict[str, object]:
        return {"key": f"w{number}", "deload": False, "note": "", "days": [
            {"key": f"w{number}d{place}", "name": f"Day {place}",
             "slots": [{**one, "key": f"w{number}{one['key']}"} for one in slots]}
            for place, slots in enumerate(days, 1)
        ]}  # fmt: skip

    return {"blocks": [{"key": "b1", "name": "Block 1", "weeks": [week(n) for n in range(1, weeks + 1)]}]}


def make_program(world, library, **fields: object):
    """Two training days: curl and press, then row."""
    content = document(
        [slot("s1", library.curl.pk), slot("s2", library.press.pk)],
        [slot("s3", library.row.pk, sets=[3, 4])],
        weeks=fields.pop("weeks", 1),
    )
    return program_create(
        practice=world.practice, author=world.coach, name=fields.pop("name", "Arms"), document=content, **fields
    )
