"""Reports of pain. The rule stops or watches an exercise; it never says what the pain is."""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from periodization.flags.facts import ClientHistory, PainFact
from periodization.flags.flag import Flag, FlagRule, Severity
from periodization.flags.thresholds import Thresholds
from periodization.rules import Rule

RULE = Rule("pain.report", 1, "cuts after Thomee 1997 and Silbernagel 2007 (MEMORY); rise over three reports chosen")


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield one flag per exercise (one more for reports without an exercise): the most urgent of its sites.

    Stop: any report over 5 of 10 in the last `pain_clear_days`, or three reports each worse than the one before, the
    last of them that recent. Watch: any report from 3 that recent.
    """
    series: dict[tuple[str, str], list[PainFact]] = {}
    for one in sorted(history.pains, key=lambda p: (p.day, p.id)):
        series.setdefault((one.exercise_id or "", one.site), []).append(one)
    worst: dict[str, Flag] = {}
    for (exercise, site), reports in sorted(series.items()):
        flag = _judge(exercise, site, reports, today, t)
        if flag is not None and (exercise not in worst or _urgency(flag) > _urgency(worst[exercise])):
            worst[exercise] = flag
    yield from worst.values()


def _urgency(flag: Flag) -> tuple[bool, float]:
    return flag.severity == "stop", float(flag.params["score"])


def _judge(exercise: str, site: str, reports: list[PainFact], today: date, t: Thresholds) -> Flag | None:
    since = today - timedelta(t.pain_clear_days)
    live = [p for p in reports if p.day > since]
    over = [p for p in live if p.score > t.pain_stop_over]
    last = reports[-t.pain_rising_reports :]
    rising = (
        len(last) == t.pain_rising_reports
        and last[-1].day > since
        and all(b.score > a.score for a, b in pairwise(last))
    )
    watched = [p for p in live if p.score >= t.pain_watch_from]
    severity: Severity
    if over:
        severity, code, evidence = "stop", "pain_over", over
    elif rising:
        severity, code, evidence = "stop", "pain_rising", last
    elif watched:
        severity, code, evidence = "watch", "pain_watch", watched
    else:
        return None
    score = max(p.score for p in evidence)
    return Flag(
        RULE.id,
        RULE.version,
        "pain",
        severity,
        "exercise" if exercise else "client",
        exercise,
        opened_on=evidence[0].day,
        evidence_ids=tuple(p.id for p in evidence),
        code=code,
        params={"score": score, "site": site, "count": len(evidence)},
        clears_code="clears_pain_stop" if severity == "stop" else "clears_pain_watch",
        clears_params={"days": t.pain_clear_days, "under": t.pain_watch_from},
        values={"score": score, "site": site},
        thresholds={
            "stop_over": t.pain_stop_over,
            "watch_from": t.pain_watch_from,
            "rising_reports": t.pain_rising_reports,
            "clear_days": t.pain_clear_days,
        },
    )


FLAG_RULE = FlagRule(RULE, "pain", lambda t: t.pain_days, check)
