"""Reports of pain. The rule stops or watches exercises; it never says what the pain is."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby, pairwise

from periodization.flags.facts import ClientHistory, PainFact
from periodization.flags.flag import Flag, FlagRule
from periodization.flags.thresholds import Thresholds
from periodization.rules import Filling, Rule

RULE = Rule("pain.report", 2, "cuts after Thomee 1997 and Silbernagel 2007 (MEMORY); rise over three reports chosen")
# Most urgent first.
CODES = ("pain_over", "pain_rising", "pain_watch")


@dataclass(frozen=True, slots=True)
class _Verdict:
    """What some reports of one site say about one exercise, since `day`; "" stands for reports that name none."""

    exercise: str
    code: str
    evidence: tuple[PainFact, ...]
    day: date

    @property
    def stops(self) -> bool:
        return self.code != "pain_watch"


def check(history: ClientHistory, today: date, t: Thresholds) -> Iterator[Flag]:
    """Yield one flag per site of the body, with all exercises that its reports name.

    Stop: any report over 5 of 10 in the last `pain_clear_days`, or three reports each worse than the one before, the
    last of them that recent: three of one exercise, or the worst of each of three days. Watch: any report from 3 that
    recent. Each exercise is judged by its own reports, so a knee that hurts badly in a squat does not stop the leg
    curl in which it hurts a little; that one is watched.
    """
    ordered = sorted(history.pains, key=lambda p: (p.site, p.day, p.id))
    for site, reports in groupby(ordered, key=lambda p: p.site):
        verdicts = _verdicts(list(reports), today, t)
        if verdicts:
            yield _flag(site, verdicts, t)


def _verdicts(reports: Sequence[PainFact], today: date, t: Thresholds) -> list[_Verdict]:
    """Return the most urgent verdict on each exercise, ordered by its id."""
    since = today - timedelta(t.pain_clear_days)
    found: dict[str, _Verdict] = {}
    for name in sorted({p.exercise_id or "" for p in reports}):
        own = [p for p in reports if (p.exercise_id or "") == name]
        if verdict := _judge(name, own, since, t):
            found[name] = verdict
    worst = [max(same, key=lambda p: p.score) for _, same in groupby(reports, key=lambda p: p.day)]
    if rise := _rise(worst, since, t):
        for name in {p.exercise_id or "" for p in reports if p.day == rise[-1].day}:
            if name not in found or not found[name].stops:
                found[name] = _Verdict(name, "pain_rising", rise, rise[-1].day)
    return [found[name] for name in sorted(found)]


def _judge(exercise: str, reports: Sequence[PainFact], since: date, t: Thresholds) -> _Verdict | None:
    live = [p for p in reports if p.day > since]
    if over := [p for p in live if p.score > t.pain_stop_over]:
        return _Verdict(exercise, "pain_over", tuple(over), over[0].day)
    if rise := _rise(reports, since, t):
        return _Verdict(exercise, "pain_rising", rise, rise[-1].day)
    watched = [p for p in live if p.score >= t.pain_watch_from]
    return _Verdict(exercise, "pain_watch", tuple(watched), watched[0].day) if watched else None


def _rise(reports: Sequence[PainFact], since: date, t: Thresholds) -> tuple[PainFact, ...]:
    """Return the last reports when each is worse than the one before and the last is recent, else nothing."""
    last = tuple(reports[-t.pain_rising_reports :])
    rising = len(last) == t.pain_rising_reports and all(b.score > a.score for a, b in pairwise(last))
    return last if rising and last[-1].day > since else ()


def _flag(site: str, verdicts: Sequence[_Verdict], t: Thresholds) -> Flag:
    code = min((v.code for v in verdicts), key=CODES.index)
    stops = code != "pain_watch"
    speaking = [v for v in verdicts if v.stops == stops]
    named = tuple(v.exercise for v in speaking if v.exercise)
    watched = tuple(v.exercise for v in verdicts if v.exercise and not v.stops)
    evidence = sorted({p for v in verdicts for p in v.evidence}, key=lambda p: (p.day, p.id))
    of_code = [v for v in speaking if v.code == code]
    score = max(p.score for v in of_code for p in v.evidence)
    params: dict[str, Filling] = {"score": score, "site": site, "count": len(of_code[0].evidence)}
    return Flag(
        RULE.id,
        RULE.version,
        "pain",
        "stop" if stops else "watch",
        "site",
        site,
        opened_on=evidence[0].day,
        evidence_ids=tuple(p.id for p in evidence),
        code=code if named else f"{code}_unnamed",
        params={**params, "exercises": named} if named else params,
        clears_code="clears_pain_stop" if stops else "clears_pain_watch",
        clears_params={"days": t.pain_clear_days, "under": t.pain_watch_from},
        values={"score": score, "site": site, "reports": len(evidence), "watched": watched},
        thresholds={
            "stop_over": t.pain_stop_over,
            "watch_from": t.pain_watch_from,
            "rising_reports": t.pain_rising_reports,
            "clear_days": t.pain_clear_days,
        },
        exercises=tuple(v.exercise for v in verdicts if v.exercise),
        stopped=named if stops else (),
        stopped_on=tuple(v.day for v in speaking if v.exercise) if stops else (),
        everything=any(v.stops and not v.exercise for v in verdicts),
    )


FLAG_RULE = FlagRule(RULE, "pain", lambda t: t.pain_days, check)
