"""Holds the findings of one dive against its truth. Runs nothing, reads no log.
SPDX-License-Identifier: MIT
"""
from expected import KINDS, SEVERITIES

NEAR_S = 60  # a finding this near to a planted stretch may be its own: windows, samples and merging widen it; convention

# A surface swim is judged as a record that ends flat: within these of minutes owed and points of gradient; convention.
FLAT_MIN, FLAT_POINTS = 3.0, 3.0

RATE_WINDOW_S = 20  # the rule ascent_window_s


def kinds_of(kind):
    return KINDS.get(kind, [kind])


def own_kinds(line):
    return set(kinds_of(line["kind"]))


def event_kinds(line):
    return own_kinds(line).union(*(kinds_of(kind) for kind in line["also"])) if line["also"] else own_kinds(line)


def overlaps(finding, line, near_s=NEAR_S):
    if finding["from_s"] is None:
        return True
    return finding["from_s"] <= line["to_s"] + near_s and finding["to_s"] >= line["from_s"] - near_s


def is_about(finding, line):
    """Does a finding hold at the moment of a bad sample? A rate is fitted over a window about it."""
    near_s = RATE_WINDOW_S if finding["kind"] == "ascent-rate" else 0
    return finding["from_s"] is not None and finding["from_s"] < line["to_s"] + near_s and finding["to_s"] > line["from_s"] - near_s


def of_event(findings, line):
    """The findings that tell of a planted event. What goes against a plan shows in the whole ascent."""
    kinds = event_kinds(line)
    return [f for f in findings if f["kind"] in kinds and (overlaps(f, line) or f["kind"].startswith("plan-"))]


def rank(severity):
    return SEVERITIES.index(severity)


def is_told(finding, truth):
    """Does the truth say that the dive simply is so, and as bad as that?"""
    return any(finding["kind"] in kinds_of(fact["kind"]) and rank(finding["severity"]) <= rank(fact["most"]) for fact in truth["is"])


def judged(line, findings):
    """found, kind, severity, value as booleans, and how many findings the event has."""
    event = of_event(findings, line)
    own = [f for f in event if f["kind"] in own_kinds(line)]
    worst = max((f["severity"] for f in event), key=rank, default=None)
    values = [f["value"] for f in own if f["value"] is not None]
    near = [v for v in values if abs(v - line["value"]) <= line["tolerance"]]
    return {"found": bool(event), "kind": bool(own), "severity": worst in line["severity"], "value": bool(near),
            "count": len(own if line["kind"].startswith("plan-") else event), "worst": worst, "values": values}


def judged_sample(line, findings, truth, max_depth_m):
    """A sample that cannot be: it must raise nothing and be no greatest depth."""
    others = [other for other in truth["planted"] if other["kind"]]
    raised = [f for f in findings if is_about(f, line) and not is_told(f, truth) and not any(f in of_event(findings, o) for o in others)]
    deep = abs(max_depth_m - truth["truth"]["max_depth_m"]) > 1
    worst = max((f["severity"] for f in raised), key=rank, default=None)
    return {"found": not raised and not deep, "kind": not raised, "severity": not raised, "value": not deep,
            "count": len(raised), "worst": worst, "values": [max_depth_m] if deep else []}


def unexplained(truth, findings):
    """Findings that neither a planted fault nor what the dive is accounts for."""
    lies = [line for line in truth["planted"] if not line["kind"]]
    left = [f for f in findings if not is_told(f, truth) and not any(is_about(f, line) for line in lies)]
    return [f for f in left if not any(f in of_event(findings, line) for line in truth["planted"])]


def untold(truth, findings):
    """What the dive is beyond doubt, and no finding tells."""
    told = {f["kind"] for f in findings}
    return [fact["kind"] for fact in truth["is"] if fact["sure"] and not told.intersection(kinds_of(fact["kind"]))]


def of_kind(findings, line):
    return [f for f in findings if f["kind"] in own_kinds(line) and overlaps(f, line)]


def alike(findings, flat, line):
    """One finding of the planted kind each, of one severity, its minutes as near as the records allow."""
    one, other = of_kind(findings, line), of_kind(flat, line)
    return len(one) == len(other) == 1 and one[0]["severity"] == other[0]["severity"] and (
        abs(one[0]["value"] - other[0]["value"]) <= FLAT_MIN)
