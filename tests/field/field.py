"""The review on a field of realistic dives with known truth: what is found of what was planted, and what is found that is not there.
Prints the table; asserts what expected.py has switched on, and that the dives are what their truth says.
usage: field.py PLIMSOLL GENERATE CLEAN FAULTY [SEED] [FOLDER]
SPDX-License-Identifier: MIT
"""
import collections
import concurrent.futures
import json
import os
import subprocess
import sys
import tempfile

import judge
import look
from expected import BOUNDS, FAULTS

WORKERS = 2  # processes at a time


def debrief(plimsoll, folder, log, card):
    command = [plimsoll, "debrief", "--format", "json"] + (["--card", os.path.join(folder, card)] if card else [])
    done = subprocess.run(command + [os.path.join(folder, log)], capture_output=True, text=True, check=False)
    try:
        dives = json.loads(done.stdout)["dives"]
    except ValueError:
        raise SystemExit(f"{log}: no answer, exit status {done.returncode}\n{done.stderr}") from None
    return dives


def card_of(folder, log):
    card = log.rsplit(".", 1)[0] + ".card"
    return card if os.path.exists(os.path.join(folder, card)) else None


def surfacing_pct_of(dives):
    return dives[-1]["loading"]["surfacing_gradient_pct"]


class Reviewed:
    """A dive, its truth, and what the program says of it."""

    def __init__(self, plimsoll, folder, truth):
        self.truth, self.name = truth, truth["name"]
        dives = debrief(plimsoll, folder, truth["log"], truth["card"])
        self.dives = len(dives)
        self.findings = [f for dive in dives for f in dive["findings"]]
        self.max_depth_m = max(dive["profile"]["max_depth_m"] for dive in dives)
        self.surfacing_pct = surfacing_pct_of(dives)
        self.flat = None
        if truth["flat"]:
            dives = debrief(plimsoll, folder, truth["flat"], card_of(folder, truth["flat"]))
            self.flat, self.flat_pct = [f for dive in dives for f in dive["findings"]], surfacing_pct_of(dives)
        self.clock_s, self.clock_severity = self._clock(plimsoll, folder) if truth["second"] else (None, None)

    def _clock(self, plimsoll, folder):
        """What is to be added to the second's clock, whichever of the two is doubted; and what the doubt counts as."""
        logs = [os.path.join(folder, self.truth[key]) for key in ("log", "second")]
        done = subprocess.run([plimsoll, "audit", "--format", "json"] + logs, capture_output=True, text=True, check=False)
        for dive in json.loads(done.stdout)["dives"]:
            if dive["clock_offset_s"] and dive["same_dive_as"]:
                log = os.path.basename(dive["file"])
                own = [f["severity"] for one in debrief(plimsoll, folder, log, card_of(folder, log)) for f in one["findings"]]
                more = [severity for severity in ("note", "caution", "serious") if dive[severity] > own.count(severity)]
                return dive["clock_offset_s"] * (1 if log == self.truth["second"] else -1), " ".join(more)
        return None, None

    def lines(self):
        """Each planted line with its judgement."""
        for line in self.truth["planted"]:
            if line["fault"] == "clock-off":
                told = self.clock_s is not None
                off = told and abs(self.clock_s - line["value"]) <= line["tolerance"]
                yield line, {"found": told, "kind": told, "severity": self.clock_severity in line["severity"], "value": off, "count": 1, "worst": None, "values": [self.clock_s]}
            elif not line["kind"]:
                yield line, judge.judged_sample(line, self.findings, self.truth, self.max_depth_m)
            else:
                yield line, judge.judged(line, self.findings)

    def false(self):
        return judge.unexplained(self.truth, self.findings)


def reviewed(plimsoll, folder):
    truths = []
    for name in sorted(os.listdir(folder)):
        if name.endswith(".truth.json"):
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                truths.append(json.load(file))
    with concurrent.futures.ThreadPoolExecutor(WORKERS) as pool:
        return list(pool.map(lambda truth: Reviewed(plimsoll, folder, truth), truths))


def flat_is_alike(dive):
    """A cut stop is judged by the same finding, whether the head bobs at the surface afterwards or the record ends."""
    lines = [line for line in dive.truth["planted"] if line["fault"] == "swim-after-cut"]
    near = abs(dive.surfacing_pct - dive.flat_pct) <= judge.FLAT_POINTS
    return near and all(judge.alike(dive.findings, dive.flat, line) for line in lines)


def is_clean(dive):
    return not dive.truth["planted"]


def table_of_faults(dives):
    """Prints a row a fault. Returns: fault -> what failed on which dive."""
    rows = collections.defaultdict(list)
    for dive in dives:
        for line, judged in dive.lines():
            rows[line["fault"]].append((dive, line, judged))
    print(f"{'fault':<24}{'kind':<22}planted  found  missed  other kind  severity off  value off  several findings")
    failed = {}
    for fault in FAULTS:
        met = rows.get(fault, [])
        if not met:
            continue
        off = {key: sum(not judged[key] for _, _, judged in met) for key in ("found", "kind", "severity", "value")}
        missed, several = off["found"], sum(judged["count"] > 1 for _, _, judged in met)
        due = met[0][1]["kind"]
        further = (off["kind"] - missed, off["severity"] - missed, off["value"] - off["kind"]) if due else ("", "", off["value"])
        print(f"{fault:<24}{due or '(nothing is due)':<22}{len(met):>7}{len(met) - missed:>7}{missed:>8}"
              f"{further[0]:>12}{further[1]:>14}{further[2]:>11}{several:>18}")
        failed[fault] = {key: [(d, l, j) for d, l, j in met if not j[key]] for key in off}
    return failed, rows


def table_of_noise(title, dives):
    """What is found that neither a fault nor the dive itself accounts for."""
    counts = collections.Counter((f["kind"], f["severity"]) for dive in dives for f in dive.false())
    on = collections.Counter((kind, severity) for dive in dives for kind, severity in {(f["kind"], f["severity"]) for f in dive.false()})
    print(f"\n{title}: {sum(counts.values())} on {len(dives)} dives")
    for (kind, severity), count in sorted(counts.items(), key=lambda item: -item[1]):
        print(f"  {kind:<24}{severity:<10}{count:>5}  on {on[kind, severity]} dives")


def mean(values):
    return sum(values) / len(values) if values else 0.0


def words_of(finding):
    from_s = finding["from_s"] if finding["from_s"] is not None else 0
    return f"    {finding['severity']:<8} {finding['kind']:<22} at {from_s:>7.0f} s: {finding['text']}"


def table_of_clean(dives):
    counts = [len(dive.findings) for dive in dives]
    worst = max(dives, key=lambda dive: len(dive.findings))
    print(f"\nfindings a clean dive: mean {mean(counts):.2f}, worst {len(worst.findings)} on {worst.name} ({worst.truth['dive']})")
    for finding in sorted(worst.findings, key=lambda f: f["from_s"] or 0):
        print(words_of(finding))
    by_dive = collections.defaultdict(list)
    for dive in dives:
        by_dive[dive.truth["dive"]].append(len(dive.findings))
    for kind, found in sorted(by_dive.items()):
        print(f"  {kind:<20} mean {mean(found):6.2f}   most {max(found):3}   dives {len(found)}")


def measured(clean, dives):
    """The figures that the bounds are about."""
    worse = [f["severity"] for dive in clean for f in dive.false() if f["severity"] != "note"]
    lines = [(dive, line, judged) for dive in dives for line, judged in dive.lines()]
    return {
        "cautions-per-clean-dive": len(worse) / len(clean),
        "serious-on-clean-dives": worse.count("serious"),
        "findings-on-worst-clean-dive": max(len(dive.findings) for dive in clean),
        "told-of-what-dives-are": sum(len(judge.untold(dive.truth, dive.findings)) for dive in clean),
        "bad-samples-raise-nothing": sum(not j["found"] for _, line, j in lines if not line["kind"]),
        "one-finding-an-event": sum(j["count"] > 1 for _, line, j in lines if line["kind"]),
        "gaps-where-nothing-is-missing": sum(f["kind"] == "log-gap" for dive in dives for f in dive.false()),
        "swim-judged-as-flat-end": sum(not flat_is_alike(dive) for dive in dives if dive.flat is not None),
    }


def bounds_hold(figures):
    """Prints each bound. Returns: what is asserted and does not hold."""
    wrong = []
    print("\nbound                          measured   bound  asserted")
    for name, (asserted, bound, what) in BOUNDS.items():
        print(f"{name:<30}{figures[name]:>9.2f}{bound:>8}  {'yes' if asserted else 'no':<9} {what}")
        if asserted and figures[name] > bound:
            wrong.append(f"{name}: {figures[name]:.2f}, at most {bound}")
    return wrong


def faults_hold(failed):
    wrong = []
    for fault, asserted in FAULTS.items():
        for key in asserted.split():
            for dive, line, judged in failed.get(fault, {}).get(key, []):
                wrong.append(f"{dive.name}: {fault}: {key}: {judged['worst']} {judged['values']}, expected {line['severity']} "
                             f"{line['value']} {line['unit']} within {line['tolerance']}")
    return wrong


def holding_now(failed, rows):
    """What of each fault could be asserted as the program is."""
    print("\nholds on every dive and is not asserted:")
    for fault in rows:
        spare = [key for key in ("found", "kind", "severity", "value") if not failed[fault][key] and key not in FAULTS.get(fault, "").split()]
        if spare:
            print(f"  {fault:<24}{' '.join(spare)}")


def main():
    plimsoll, generate, clean_count, faulty_count = sys.argv[1:5]
    seed = sys.argv[5] if len(sys.argv) > 5 else "7"
    with tempfile.TemporaryDirectory() as made:
        folder = sys.argv[6] if len(sys.argv) > 6 else made
        subprocess.run([generate, "--field", clean_count, "--faulty", faulty_count, "--seed", seed, "--out", folder], check=True)
        wrong = look.wrong_in(folder, WORKERS)
        dives = reviewed(plimsoll, folder)
    clean = [dive for dive in dives if is_clean(dive)]
    print(f"{len(clean)} clean and {len(dives) - len(clean)} faulty dives of seed {seed}\n")
    failed, rows = table_of_faults(dives)
    table_of_noise("false on clean dives", clean)
    table_of_noise("not accounted for on faulty dives", [dive for dive in dives if not is_clean(dive)])
    table_of_clean(clean)
    wrong += bounds_hold(measured(clean, dives)) + faults_hold(failed)
    wrong += [f"{dive.name}: {dive.dives} dives in its log" for dive in dives if dive.dives != 1]
    holding_now(failed, rows)
    for line in wrong:
        print(f"WRONG: {line}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
