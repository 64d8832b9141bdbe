"""Fails on an include upward. usage: floors.py ROOT

Looks at every #include of src/ and include/plimsoll/ and holds it against src/floors.txt.
SPDX-License-Identifier: MIT
"""
import os
import re
import sys

from house import Floors, Report, c_files

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')


def judge(floors, floor, quote, target):
    """What is wrong with this include on this floor, or None."""
    head, _, tail = target.partition("/")
    if head == "plimsoll":
        if tail not in floors.headers:
            return f"<{target}> has no `header` line in src/floors.txt"
        used = floors.headers[tail]
        if not floors.may_use(floor, used):
            return f"floor {floor} includes <{target}> of floor {used}, which it may not use"
        return None
    if quote == '"':
        if head not in floors.uses or not tail:
            return f'"{target}" does not start with its floor'
        if floors.uses[floor] is None and head != floor:
            return f'floor {floor} includes "{target}"; it may use public headers only'
        if not floors.may_use(floor, head):
            return f'floor {floor} includes "{target}" of floor {head}, which it may not use'
        return None
    if target in floors.libraries and floor not in floors.libraries[target]:
        return f"<{target}> belongs to {' '.join(sorted(floors.libraries[target]))}"
    return None


def main(root):
    report = Report(root)
    floors = Floors(root, report)
    files = c_files(root, "src", "include")
    for path in files:
        parts = os.path.relpath(path, root).split(os.sep)
        if parts[0] == "include":
            floor = floors.headers.get(parts[-1])
        else:
            floor = parts[1] if parts[1] in floors.uses else None
        if floor is None:
            report.add(path, 1, "belongs to no floor of src/floors.txt")
            continue
        for number, text in enumerate(open(path, encoding="utf-8"), 1):
            match = INCLUDE.match(text)
            if not match:
                continue
            what = judge(floors, floor, *match.groups())
            if what is None and parts[0] == "include" and match.group(1) == '"':
                what = "a public header includes public headers only"
            if what:
                report.add(path, number, what)
    for name in floors.headers:
        if not os.path.exists(os.path.join(root, "include", "plimsoll", name)):
            report.add(os.path.join(root, "src", "floors.txt"), 1, f"header {name} does not exist")
    report.finish(len(files))


main(sys.argv[1])
