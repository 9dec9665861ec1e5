"""Each derived number worked out once more, from nothing but what its answer lists. None of the product's own code
takes part, but for the trend's filter, which tests/published checks against statsmodels."""

import datetime as dt
import math
import re
from collections import defaultdict
from statistics import fmean, median, stdev

from periodization.targets import DEFAULTS
from periodization.trend import TrendPoint, expect, fit_trend

ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")
LB = 0.45359237


def day_of(text):
    return dt.date.fromisoformat(text)


def said_day(text):
    return dt.datetime.strptime(text, "%d %b %Y").replace(tzinfo=dt.UTC).date()


def weight(row):
    return 1.0 if row["side"] == "both" else 0.5


def kept(answer, _unit):
    slots = {row["slot"]: row for row in answer.rows("slots")}
    merged = defaultdict(list)
    for place, row in enumerate(answer.rows("sets")):
        if not row["warm_up"]:
            own = place if row["side"] == "both" else None
            merged[row["session"], row["slot"], row["exercise"], row["number"], own].append(row["rir"])
    counts, gaps, unknown = defaultdict(int), [], 0
    for (_session, slot, *_rest), reported in merged.items():
        counts[slot] += 1
        known = [one for one in reported if one is not None]
        if not known:
            unknown += 1
        elif slot in slots:
            low, high, rir = slots[slot]["rir_min"], slots[slot]["rir_max"], min(known)
            gaps.append(rir - low if rir < low else rir - high if rir > high else 0.0)
    met = {key: min(counts.get(key, 0), row["sets"]) for key, row in slots.items()}
    planned, done = sum(row["sets"] for row in slots.values()), sum(met.values())
    due = [row for row in slots.values() if row["due"]]
    groups = answer.rows("groups")
    volume = sum(row["planned"] for row in groups)
    return {
        "sessions_planned": len({row["session"] for row in slots.values()}),
        "sessions_due": len({row["session"] for row in due}),
        "sessions_done": len({row["session"] for key, row in slots.items() if counts.get(key)}),
        "sets_planned": planned,
        "sets_due": sum(row["sets"] for row in due),
        "sets_done": done,
        "extra_sets": sum(counts.values()) - done,
        "sets_share": 100 * done / planned if planned else None,
        "mean_rir_gap": fmean(gaps) if gaps else None,
        "effort_share": 100 * sum(gap == 0 for gap in gaps) / len(gaps) if gaps else None,
        "effort_unknown": unknown,
        "volume_share": 100 * sum(min(row["planned"], row["done"]) for row in groups) / volume if volume else None,
    }


def volume(answer, _unit):
    limit = float(answer.fact("repetitions in reserve"))
    credit = defaultdict(float)
    for row in answer.rows("credits"):
        credit[row["exercise"]] = max(credit[row["exercise"]], row["credit"])
    done = sum(
        weight(row) * credit[row["exercise"]]
        for row in answer.rows("sets")
        if not row["warm_up"] and (row["rir"] is None or row["rir"] <= limit)
    )
    plan = [row for row in answer.rows("slots") if row["rir_max"] <= limit]
    ahead = sum(row["sets"] * row["credit"] for row in plan if row["ahead"])
    found = {"done": done, "planned": sum(row["sets"] * row["credit"] for row in plan), "ahead": ahead}
    found["shown"] = done + ahead
    for row in answer.rows("range"):
        ends = (row["floor"], row["ceiling"])
        if row["source"] == "chosen":
            ends = DEFAULTS[row["status"]][row["priority"]]
        found |= {"floor": ends[0], "ceiling": ends[1]}
    return found


def tally(answer, _unit):
    limit, rows = float(answer.fact("repetitions in reserve")), answer.rows("sets")
    working = [row for row in rows if not row["warm_up"]]
    hard = [row for row in working if row["rir"] is None or row["rir"] <= limit]
    return {
        "hard": sum(map(weight, hard)),
        "unknown": sum(weight(row) for row in hard if row["rir"] is None),
        "easy": sum(map(weight, working)) - sum(map(weight, hard)),
        "warm_up": sum(weight(row) for row in rows if row["warm_up"]),
    }


def ranges(answer, _unit):
    rows = answer.rows("groups")
    under = sum(row["done"] + row["ahead"] < row["floor"] and bool(row["aimed"]) for row in rows)
    over = sum(row["done"] + row["ahead"] > row["ceiling"] for row in rows)
    return {"under": under, "over": over, "outside": under + over}


def load(answer, _unit):
    first, last = said_day(answer.fact("first day")), said_day(answer.fact("last day"))
    by_day = defaultdict(float)
    for row in answer.rows("sessions"):
        if row["rpe"] is not None and row["minutes"] is not None:
            by_day[day_of(row["day"])] += row["rpe"] * row["minutes"]
    series = [by_day[first + dt.timedelta(n)] for n in range((last - first).days + 1)]
    week, monday = series[-7:], last - dt.timedelta(last.weekday())
    found = {
        "week": sum(value for day, value in by_day.items() if day >= monday),
        "unrated": sum(
            day_of(row["day"]) >= monday and (row["rpe"] is None or row["minutes"] is None)
            for row in answer.rows("sessions")
        ),
    }
    if len(set(week)) > 1:
        found["monotony"] = fmean(week) / stdev(week)
        found["strain"] = sum(week) * found["monotony"]
    for name, span in (("acute", 7), ("chronic", 28)):
        average = series[0]
        for value in series[1:]:
            average += 2 / (span + 1) * (value - average)
        found[name] = average
    return found


def trend(answer, unit):
    rows, last = answer.rows("points"), said_day(answer.fact("last day"))
    ours = fit_trend([TrendPoint(day_of(row["day"]), row["e1rm"], row["sd"]) for row in rows], last)
    found = {"points": len(rows)}
    for name, interval in (("level", ours.level_kg), ("slope", ours.slope_percent_week)):
        if interval:
            found |= {name: interval.middle, f"{name}_low": interval.low, f"{name}_high": interval.high}
    return found


def strength(answer, _unit):
    (row,) = answer.rows("set")
    moved = row["load"]
    if row["body"] is not None:
        body = row["body"] * row["share"]
        moved = body + row["load"] if "+" in answer.root.all(data_answer="moved")[0].text() else body - row["load"]
    to_failure = row["reps"] + (row["rir"] or 0)
    factor = 1 + to_failure / 30 if to_failure >= 2 else 1 + (to_failure - 1) * (2 / 30)
    found = {"moved": moved, "to_failure": to_failure, "e1rm": moved * factor}
    if sides := {row["side"]: row for row in answer.rows("sides")}:
        left, right = sides["left"], sides["right"]
        reach = 1.645 * math.sqrt(left["sd"] ** 2 + right["sd"] ** 2)
        ratio = math.log(left["e1rm"] / right["e1rm"])
        share = {
            name: math.copysign(100 * (1 - math.exp(-abs(value))), value)
            for name, value in (("", ratio), ("_low", ratio - reach), ("_high", ratio + reach))
        }
        found |= {"left": left["e1rm"], "right": right["e1rm"]}
        found |= {f"difference{name}": value for name, value in share.items()}
    return found


def check_in(answer, _unit):
    (today,) = answer.rows("day")
    before = answer.rows("usual")
    now = sum(today[name] for name in ITEMS)
    found = {"total": now, "count": len(before)} | {name: today[name] for name in ITEMS}
    if len(before) >= float(answer.fact("check-ins needed")):
        totals = [sum(row[name] for name in ITEMS) for row in before]
        middle, _own, spread = usual(totals, answer)
        found |= {"median": middle, "spread": spread, "distance": (now - middle) / spread}
        found |= {"usual_low": middle - spread, "usual_high": middle + spread}
        found |= {f"usual_{name}": median(row[name] for row in before) for name in ITEMS}
    return found


def usual(totals, answer=None, prior=2.0, count=40):
    if answer is not None:
        prior, count = float(answer.fact("spread of everybody")), float(answer.fact("which weighs"))
    middle = median(totals)
    own = 1.4826 * median(abs(one - middle) for one in totals)
    return middle, own, math.sqrt((len(totals) * own**2 + count * prior**2) / (len(totals) + count))


def mass(answer, unit):
    (row,) = answer.rows("masses")
    kg = row["mass"] * (LB if row["unit"] == "lb" else 1)
    return {"mass": kg / LB if unit == "lb" else kg}


def pain(answer, _unit):
    scores = [row["score"] for row in answer.rows("reports")]
    return {"worst": max(scores, default=None), "reports": len(scores)}


def urgency(answer, _unit):
    return {"points": sum(row["points"] for row in answer.rows("parts"))}


def target(answer, _unit):
    """The load and repetitions that the rule's sentence and the last sets lead to."""
    (plan,), sets = answer.rows("plan"), answer.rows("sets")
    said = answer.root.all(tag="article")[0].all(tag="p")[0].text()
    shown = {name: value_of_figure(one) for name, one in answer.figures.items()}
    newest = [row for row in sets if row["session"] == sets[-1]["session"]]
    if not newest:
        return {"load": None, "reps": plan["reps_max"]}
    last, fewest = max(row["load"] for row in newest), min(row["reps"] for row in newest)
    held = min(max(plan["reps_min"], fewest), plan["reps_max"])
    if "heavier" in said or " up" in said or "%" in said:
        percent = [float(one) for one in re.findall(r"([\d.]+) %", said)]
        if percent and shown["load"] is not None and shown["load"] > last:
            # The step is said in percent of the load moved, to one decimal.
            return {"load": ("within", last, percent[0]), "reps": plan["reps_min"]}
    if shown["load"] == last:
        step = float(answer.fact("repetitions up by"))
        options = {held, min(plan["reps_max"], max(plan["reps_min"], fewest + step)), fewest + step}
        return {"load": last, "reps": ("one of", options)}
    return {"load": ("less than", last), "reps": ("one of", {held, plan["reps_min"]})}


def value_of_figure(one):
    return float(one.attrs["value"]) if one.attrs["value"] else None


KINDS = {
    "kept": kept,
    "volume": volume,
    "head": volume,
    "muscle": volume,
    "tally": tally,
    "ranges": ranges,
    "load": load,
    "trend": trend,
    "strength": strength,
    "check-in": check_in,
    "mass": mass,
    "pain": pain,
    "urgency": urgency,
    "target": target,
}


def flag(answer, rule):
    """The figures of a flag from its entries."""
    if rule == "pain.report":
        return {"score": max(row["score"] for row in answer.rows("reports")), "reports": len(answer.rows("reports"))}
    if rule == "sessions.missed":
        rows = answer.rows("planned")
        return {"missed": sum(not row["done"] for row in rows), "planned": len(rows)}
    if rule == "check_in.below_own_baseline":
        recent = [sum(row[name] for name in ITEMS) for row in answer.rows("recent")]
        before = [sum(row[name] for name in ITEMS) for row in answer.rows("usual")]
        middle, _own, spread = usual(before)
        return {
            "count": len(recent),
            "mean": fmean(recent),
            "median": middle,
            "spread": spread,
            "baseline_count": len(before),
            "mean_distance": (fmean(recent) - middle) / spread,
        }
    if rule == "soreness.into_next_exposure":
        return {"count": len(answer.rows("sore"))}
    if rule == "volume.far_over_range":
        (row,) = answer.rows("volume")
        return {"sets": row["sets"], "ceiling": row["ceiling"]}
    if rule == "reps.under_floor":
        rows = answer.rows("sets")
        under = sum(row["reps"] < row["reps_min"] for row in rows)
        found = {"under": under, "sets": len(rows), "share": under / len(rows)}
        return found | {"count": len({row["session"] for row in rows}), "floor": rows[0]["reps_min"]}
    if rule == "effort.same_work_lower_rir":
        return same_work(answer)
    if rule == "performance.under_expected":
        return under_expected(answer)
    if rule == "performance.overall_under_expected":
        return overall(answer)
    raise AssertionError(f"No second computation for {rule}.")


def same_work(answer):
    sessions = []
    for row in reversed(answer.rows("sets")):
        if not sessions or sessions[-1][0]["session"] != row["session"]:
            sessions.append([])
        sessions[-1].append(row)
    before = defaultdict(list)
    for row in (row for rows in sessions[:-2] for row in rows):
        if row["rir"] is not None:
            before[round(row["load"] * 200), row["reps"], row["place"]].append(row["rir"])
    drops = []
    for rows in sessions[-2:]:
        keyed = [
            (before[round(r["load"] * 200), r["reps"], r["place"]], r["rir"]) for r in rows if r["rir"] is not None
        ]
        drops.append(fmean(median(seen) - rir for seen, rir in keyed if len(seen) >= 2))
    return {"mean_drop": fmean(drops), "drop": fmean(drops), "count": 2}


def under_expected(answer):
    before = [TrendPoint(day_of(row["day"]), row["e1rm"], row["sd"]) for row in answer.rows("before")]
    rows = answer.rows("compared")[::-1]
    ours = fit_trend(before, max(point.day for point in before))
    found = {"count": len(rows), "percent": 100 * (1 - rows[-1]["observed"] / rows[-1]["expected"])}
    found |= {f"observed_{n}": row["observed"] for n, row in enumerate(rows, 1)}
    found |= {f"low_{n}": row["low"] for n, row in enumerate(rows, 1)}
    expected = expect(ours, day_of(rows[-1]["session"].partition("/")[0]), 0.0)
    return found | {"expected_kg": expected.middle}


def overall(answer):
    day_sd = float(answer.fact("what all sets of a day share"))
    sessions = defaultdict(list)
    for row in answer.rows("compared"):
        sessions[row["session"]].append((math.log(row["observed"] / row["expected"]), row["sd"]))
    weights, gaps = [], []
    for rows in sessions.values():
        inside = [1 / sd**2 for _gap, sd in rows]
        gaps.append(sum(w * gap for w, (gap, _sd) in zip(inside, rows, strict=True)) / sum(inside))
        weights.append(1 / (1 / sum(inside) + day_sd**2))
    mean = sum(w * g for w, g in zip(weights, gaps, strict=True)) / sum(weights)
    return {
        "percent": 100 * (1 - math.exp(mean)),
        "z": mean * math.sqrt(sum(weights)),
        "sessions": len(sessions),
        "exposures": len(answer.rows("compared")),
    }
