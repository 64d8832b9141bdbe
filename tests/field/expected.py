"""What the review is held to on the field, one switch for each assertion: True is asserted, False is told in the table alone.
Whoever mends the judgement turns a switch on in the same commit. Numbers of bounds are conventions of this project.
SPDX-License-Identifier: MIT
"""

# name: (asserted, bound, what is measured)
BOUNDS = {
    "cautions-per-clean-dive": (True, 0.2, "findings of caution or worse that the truth does not tell of, mean over the clean dives"),
    "serious-on-clean-dives": (True, 0, "serious findings that the truth does not tell of, on all clean dives"),
    "findings-on-worst-clean-dive": (True, 12, "findings of any severity on the clean dive that has most"),
    "told-of-what-dives-are": (True, 0, "things that clean dives simply are, beyond doubt, and that no finding tells"),
    "bad-samples-raise-nothing": (True, 0, "samples that cannot be, and raise findings or change the greatest depth"),
    "one-finding-an-event": (True, 0, "planted events that come as several findings"),
    "gaps-where-nothing-is-missing": (True, 0, "gaps found in records that miss no sample, those of changes alone among them"),
    "swim-judged-as-flat-end": (True, 0, "cut stops that are judged otherwise when the head bobs at the surface afterwards"),
}

# fault: what of it is asserted: found (a finding of its kind, or of the same event), kind (its own kind),
# severity (one that the rules allow), value (within the tolerance of its truth)
FAULTS = {
    "fast-deep": "found kind severity",
    "fast-past-stops": "found kind severity value",
    "fast-between-stops": "found kind severity value",
    "brisk-between-stops": "found kind severity value",
    "brisk-to-surface": "found kind severity value",
    "fast-to-surface": "found kind severity value",
    "stop-cut": "found kind severity value",
    "stop-missed": "found kind severity value",
    "ceiling-broken": "found kind severity value",
    "surfaced-owing-little": "found kind severity value",
    "surfaced-owing-some": "found kind severity value",
    "surfaced-owing-much": "found kind severity value",
    "swim-after-cut": "found kind severity value",
    "loop-low": "found kind severity value",
    "loop-high": "found kind severity value",
    "mix-too-deep": "found kind severity value",
    "hypoxic-at-surface": "found kind severity value",
    "down-again": "found kind severity value",
    "loop-left": "found kind severity value",
    "plan-deeper": "found kind severity value",
    "plan-longer": "found kind severity value",
    "plan-mix": "found kind severity value",
    "cell-stuck": "found kind severity value",
    "cell-limited": "found kind severity value",
    "cell-off": "found kind severity value",
    "gap-short": "found kind severity value",
    "gap-long": "found kind severity value",
    "spike-away": "found kind severity value",
    "spike-two": "found kind severity value",
    "spike-zero": "found kind severity value",
    "spike-6553.5": "found kind severity value",
    "spike-negative": "found kind severity value",
    "clock-off": "found kind severity value",
}

# A kind of the truth under the names that findings may give it.
KINDS = {
    "left-loop": ["left-loop"],
    "descended-again": ["descended-again"],
}

SEVERITIES = ["note", "caution", "serious"]
