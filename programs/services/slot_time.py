"""What takes time in a slot: the same for one in a program and one in a client's plan."""

from periodization.duration import SlotTime


def slot_time(
    *,
    sets: int,
    reps: tuple[int, int],
    rest_s: int,
    tempo: str,
    pair: str,
    one_sided: bool,
    rep_s: int,
    setup_s: int,
) -> SlotTime:
    """Return it for a prescription and the exercise's facts. `pair` is a letter or empty; `tempo` as written; `rep_s`
    holds where it says nothing."""
    # A tempo of "3-1-1-0" is the seconds of one repetition; an X (as fast as possible) counts as nothing.
    written = sum(int(sign) for sign in tempo if sign.isdigit())
    return SlotTime(
        sets=sets,
        reps=sum(reps) / 2,
        tempo_seconds=float(written or rep_s),
        rest_seconds=float(rest_s),
        pair=pair or None,
        one_sided=one_sided,
        change_seconds=float(setup_s),
    )
