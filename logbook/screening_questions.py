"""The words of the screening questions. An answer keeps the version it was given to: add a version, change none."""

from django.utils.translation import gettext_lazy as _

from periodization.screening import ACTIVE, KNOWN, QUESTIONS, SIGNS, TOLD

VERSION = 1

WORDS = {
    1: {
        ACTIVE: _(
            "For the last three months, were you active on at least three days a week, half an hour at a time, so that "
            "you breathed faster than usual?"
        ),
        "sign-chest": _(
            "Do you feel pain, pressure or tightness in the chest, the neck, the jaw or an arm, at rest or with effort?"
        ),
        "sign-breathless": _("Do you run out of breath while you rest, or with something as easy as a slow walk?"),
        "sign-dizzy": _("Do you get dizzy spells, or have you fainted?"),
        "sign-lying": _("Does breathing get hard when you lie flat, or does it wake you at night?"),
        "sign-ankles": _("Do your ankles swell without an injury?"),
        "sign-heartbeat": _("Does your heart race, stumble or pound for no reason that you know?"),
        "sign-calf": _("Do your legs cramp or ache when you walk, and stop soon after you stand still?"),
        "sign-murmur": _("Has a clinician heard a murmur of your heart?"),
        "sign-tired": _("Are you unusually tired or short of breath with what you do every day?"),
        "known-heart": _("Has a clinician found a disease of your heart or of your blood vessels?"),
        "known-metabolic": _("Has a clinician found diabetes, or another disease of your metabolism?"),
        "known-kidney": _("Has a clinician found a disease of your kidneys?"),
        TOLD: _("Has a clinician told you not to train, or to train only under conditions?"),
    }
}

# What stands together on the page, under a heading.
PARTS = (
    (_("How active you are"), (ACTIVE,)),
    (_("What you notice, now or in the last months"), SIGNS),
    (_("What you know of"), (*KNOWN, TOLD)),
)

OUTCOMES = {
    "sign": _("A sign was noticed that should be looked at before training."),
    "known": _("With what is known, a clinician should say first which training is right."),
    "told": _("A clinician set conditions, and should be asked again before hard training."),
    "start-easy": _("Nothing answered speaks against training. Begin easy, and let it get harder over weeks."),
    "go-on": _("Nothing answered speaks against going on."),
}

assert set(WORDS[VERSION]) == set(QUESTIONS)  # noqa: S101 - a question without words must not reach a page


def worded(version: int, codes: list[str]) -> list[str]:
    """Return questions in the words of their version; a code that the version does not have is left out."""
    words = WORDS.get(version, {})
    return [str(words[code]) for code in codes if code in words]
