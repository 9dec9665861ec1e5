"""When a head is really long: the one structural rule behind the mark 'loaded while long'.

A head over two joints is only long under load if the joint that is NOT trained puts it there (an overhead triceps
extension trains the elbow and holds the shoulder flexed). A head over one joint is long at the end of its own range.
"""

from collections.abc import Collection, Iterable

_PAIRS = (
    ("shoulder-flexion", "shoulder-extension"),
    ("shoulder-abduction", "shoulder-adduction"),
    ("shoulder-horizontal-abduction", "shoulder-horizontal-adduction"),
    ("shoulder-internal-rotation", "shoulder-external-rotation"),
    ("scapular-elevation", "scapular-depression"),
    ("scapular-protraction", "scapular-retraction"),
    ("scapular-upward-rotation", "scapular-downward-rotation"),
    ("elbow-flexion", "elbow-extension"),
    ("forearm-supination", "forearm-pronation"),
    ("wrist-flexion", "wrist-extension"),
    ("trunk-flexion", "trunk-extension"),
    ("hip-flexion", "hip-extension"),
    ("hip-abduction", "hip-adduction"),
    ("hip-external-rotation", "hip-internal-rotation"),
    ("knee-flexion", "knee-extension"),
    ("ankle-plantarflexion", "ankle-dorsiflexion"),
    ("ankle-eversion", "ankle-inversion"),
    ("neck-flexion", "neck-extension"),
)
OPPOSITE = {a: b for pair in _PAIRS for a, b in (pair, pair[::-1])}

# Turning the forearm and closing the hand go with the joint next to them: neither can hold a head long on its own.
_JOINT = {"finger": "wrist", "forearm": "elbow"}


def joint_of(action: str) -> str:
    """Return the joint, as this rule counts joints, that a joint action (slug) moves."""
    first = action.split("-", 1)[0]
    return _JOINT.get(first, first)


def long_positions(head_actions: Iterable[str], trained: Collection[str]) -> set[str]:
    """Return the positions (joint action slugs) that make a head long at a joint which `trained` does not use it at.

    Empty for a head over one joint, and for an exercise that trains the head at each of its joints.
    """
    head_actions = set(head_actions)
    busy = {joint_of(action) for action in head_actions & set(trained)}
    return {OPPOSITE[a] for a in head_actions if a in OPPOSITE and joint_of(a) not in busy}


def needs_position(head_actions: Iterable[str]) -> bool:
    """Say whether the head crosses more than one joint, so that 'long' has to name the other joint's position."""
    return len({joint_of(action) for action in head_actions}) > 1


def long_is_sound(head_actions: Iterable[str], trained: Collection[str], long_by: str | None) -> bool:
    """Say whether 'loaded while long' holds for a head with these actions in an exercise that trains `trained`."""
    head_actions = set(head_actions)
    if not needs_position(head_actions):
        return long_by is None
    return bool(head_actions & set(trained)) and long_by in long_positions(head_actions, trained)
