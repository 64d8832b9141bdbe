"""Tells of dives of a field, by name or by fault: what is true, and each finding with a mark: + planted, = what the dive is, ! neither.
For people who work on the judgement; no test.
usage: tell.py PLIMSOLL FOLDER NAME|FAULT...      (generate --field 200 --faulty 200 --seed 7 --out FOLDER)
SPDX-License-Identifier: MIT
"""
import sys

import field
import judge
import look


def mark(finding, truth):
    if any(finding in judge.of_event([finding], line) for line in truth["planted"]):
        return "+"
    return "=" if judge.is_told(finding, truth) else "!"


def tell(dive):
    truth = dive.truth
    print(f"{dive.name} {truth['dive']} {truth['log']} {truth['nature']}")
    print(f"    is {[(fact['kind'], fact['value'], fact['most']) for fact in truth['is']]}")
    for line, judged in dive.lines():
        failed = [key for key in ("found", "kind", "severity", "value") if not judged[key]]
        print(f"    planted {line['fault']}: {line['kind']} {line['value']} {line['unit']} within {line['tolerance']} from {line['from_s']} to "
              f"{line['to_s']} s, {line['severity']}; told as {judged['worst']} {judged['values']}; off: {failed}")
    for finding in sorted(dive.findings, key=lambda f: f["from_s"] or 0):
        print(mark(finding, truth) + field.words_of(finding))


def main():
    plimsoll, folder, wanted = sys.argv[1], sys.argv[2], set(sys.argv[3:])
    for truth in look.truths_in(folder):
        if truth["name"] in wanted or wanted.intersection(line["fault"] for line in truth["planted"]):
            tell(field.Reviewed(plimsoll, folder, truth))


if __name__ == "__main__":
    main()
