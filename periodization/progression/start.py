"""A first session of a plan that begins with a load the coach accepted."""

from periodization.loads import LoadLadder
from periodization.progression.target import Target
from periodization.progression.work import hardness
from periodization.rules import Rule

RULE = Rule("progression.start", 1, "the lighter of two: chosen")


def begun_with(target: Target, start_kg: float, ladder: LoadLadder) -> Target:
    """Return the target of a session that was given a starting load: that load where nothing else is known or where it
    is lighter; a stop stays a stop. `start_kg` is a setting of the ladder."""
    if target.action == "stop" or (
        target.load_kg is not None and hardness(ladder, target.load_kg) <= hardness(ladder, start_kg)
    ):
        return target
    params = {"load": round(start_kg, 2)}
    if target.load_kg is None:
        return Target(start_kg, target.reps, "first", "start_given", params, (), RULE.id, RULE.version)
    return Target(start_kg, target.reps, "hold", "start_lighter", params, target.evidence, RULE.id, RULE.version)
