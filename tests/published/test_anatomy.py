"""Muscles of the library against Terminologia Anatomica, first edition (TA98). SOURCED: names and codes."""

import json
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
MUSCLES = {one["slug"]: one for one in json.loads((ROOT / "programs/library/muscles.json").read_text("utf-8"))}
TA98 = [
    ("A04.4.01.002", "pectoralis-major", "M. pectoralis major"),
    ("A04.4.01.006", "pectoralis-minor", "M. pectoralis minor"),
    ("A04.4.01.008", "serratus-anterior", "M. serratus anterior"),
    ("A04.6.02.002", "deltoid", "M. deltoideus"),
    ("A04.6.02.006", "supraspinatus", "M. supraspinatus"),
    ("A04.6.02.008", "infraspinatus", "M. infraspinatus"),
    ("A04.6.02.010", "teres-minor", "M. teres minor"),
    ("A04.6.02.012", "subscapularis", "M. subscapularis"),
    ("A04.6.02.011", "teres-major", "M. teres major"),
    ("A04.3.01.006", "latissimus-dorsi", "M. latissimus dorsi"),
    ("A04.3.01.001", "trapezius", "M. trapezius"),
    ("A04.3.01.009", "levator-scapulae", "M. levator scapulae"),
    ("A04.6.02.013", "biceps-brachii", "M. biceps brachii"),
    ("A04.6.02.018", "brachialis", "M. brachialis"),
    ("A04.6.02.039", "brachioradialis", "M. brachioradialis"),
    ("A04.6.02.017", "coracobrachialis", "M. coracobrachialis"),
    ("A04.6.02.019", "triceps-brachii", "M. triceps brachii"),
    ("A04.6.02.023", "anconeus", "M. anconeus"),
    ("A04.6.02.048", "supinator", "M. supinator"),
    ("A04.5.01.001", "rectus-abdominis", "M. rectus abdominis"),
    ("A04.5.01.008", "external-oblique", "M. obliquus externus abdominis"),
    ("A04.5.01.017", "internal-oblique", "M. obliquus internus abdominis"),
    ("A04.5.01.019", "transversus-abdominis", "M. transversus abdominis"),
    ("A04.5.01.027", "quadratus-lumborum", "M. quadratus lumborum"),
    ("A04.3.02.002", "erector-spinae", "M. erector spinae"),
    ("A04.3.02.202", "multifidus", "Mm. multifidi"),
    ("A04.7.02.002", "iliopsoas", "M. iliopsoas"),
    ("A04.7.02.006", "gluteus-maximus", "M. gluteus maximus"),
    ("A04.7.02.007", "gluteus-medius", "M. gluteus medius"),
    ("A04.7.02.008", "gluteus-minimus", "M. gluteus minimus"),
    ("A04.7.02.010", "tensor-fasciae-latae", "M. tensor fasciae latae"),
    ("A04.7.02.018", "rectus-femoris", "M. rectus femoris"),
    ("A04.7.02.021", "vastus-lateralis", "M. vastus lateralis"),
    ("A04.7.02.022", "vastus-intermedius", "M. vastus intermedius"),
    ("A04.7.02.023", "vastus-medialis", "M. vastus medialis"),
    ("A04.7.02.032", "biceps-femoris", "M. biceps femoris"),
    ("A04.7.02.035", "semitendinosus", "M. semitendinosus"),
    ("A04.7.02.036", "semimembranosus", "M. semimembranosus"),
    ("A04.7.02.028", "adductor-magnus", "M. adductor magnus"),
    ("A04.7.02.025", "pectineus", "M. pectineus"),
    ("A04.7.02.030", "gracilis", "M. gracilis"),
    ("A04.7.02.016", "sartorius", "M. sartorius"),
    ("A04.7.02.044", "gastrocnemius", "M. gastrocnemius"),
    ("A04.7.02.047", "soleus", "M. soleus"),
    ("A04.7.02.037", "tibialis-anterior", "M. tibialis anterior"),
    ("A04.2.01.008", "sternocleidomastoid", "M. sternocleidomastoideus"),
    ("A04.3.02.102", "splenius", "M. splenius"),
]
# MEMORY (standard anatomy): what crosses two joints that exercises move independently, and what does not.
TWO_JOINTS = ("biceps-brachii", "rectus-femoris", "semitendinosus", "semimembranosus", "gracilis", "gastrocnemius")
ONE_JOINT = ("brachialis", "vastus-lateralis", "vastus-medialis", "vastus-intermedius", "soleus")


@pytest.mark.parametrize(("code", "slug", "latin"), TA98, ids=lambda v: f"SOURCED-{v}" if v.startswith("A0") else "")
def test_code_and_latin_name(code, slug, latin):
    assert (MUSCLES[slug]["ta98"], MUSCLES[slug]["latin"]) == (code, latin)


@pytest.mark.parametrize(("slug", "joints"), [*((m, 2) for m in TWO_JOINTS), *((m, 1) for m in ONE_JOINT)])
def test_joints_of_every_head(slug, joints):
    """MEMORY."""
    assert {head["joints"] for head in MUSCLES[slug]["heads"]} == {joints}


@pytest.mark.parametrize(("muscle", "long_heads"), [("triceps-brachii", {"long"}), ("biceps-femoris", {"long"})])
def test_only_the_long_head_crosses_two_joints(muscle, long_heads):
    """MEMORY; the hamstrings' remaining head has one joint: SOURCED (Maeo 2021)."""
    heads = {head["slug"].removeprefix(f"{muscle}-"): head["joints"] for head in MUSCLES[muscle]["heads"]}
    assert {name for name, joints in heads.items() if joints == 2} == long_heads
