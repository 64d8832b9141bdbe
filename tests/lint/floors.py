"""Fails on an include upward, or across rooms. usage: floors.py ROOT

Looks at every #include of src/ and include/plimsoll/ and holds it against src/floors.txt.
SPDX-License-Identifier: MIT
"""
import os
import re
import sys

from house import Floors, Report, c_files

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')


def room_of(path):
    """The room of a file src/FLOOR/ROOM/FILE, or an empty name."""
    return path[2] if len(path) > 3 else ""


def judge(floors, floor, room, quote, target):
    """What is wrong with this include in this room of this floor, or None."""
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
        used = room_of(("src", *target.split("/")))
        if head == floor and not floors.room_may_use(floor, room, used):
            return f'room {floor}/{room} includes "{target}" of room {floor}/{used}, which it may not use'
        return None
    if target in floors.libraries and floor not in floors.libraries[target]:
        return f"<{target}> belongs to {' '.join(sorted(floors.libraries[target]))}"
    return None


def look_at_list(root, floors, report):
    """DEVELOPERS.md has a row for each floor, and names its rooms there."""
    path = os.path.join(root, "DEVELOPERS.md")
    if not os.path.exists(path):
        return
    lines = open(path, encoding="utf-8").read().splitlines()
    rows = {line.split("|")[1].strip(): (number, line) for number, line in enumerate(lines, 1) if line.startswith("| ")}
    for floor in floors.order:
        number, row = rows.get(floor, (1, None))
        if row is None:
            report.add(path, number, f"has no row for floor {floor}")
            continue
        for room in floors.rooms.get(floor, {}):
            if f"`{room}`" not in row:
                report.add(path, number, f"does not name room {floor}/{room}")


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
        room = room_of(parts) if parts[0] == "src" else ""
        if room and floor is not None and room not in floors.rooms.get(floor, {}):
            report.add(path, 1, f"room {floor}/{room} has no `room` line in src/floors.txt")
        if floor is None:
            report.add(path, 1, "belongs to no floor of src/floors.txt")
            continue
        for number, text in enumerate(open(path, encoding="utf-8"), 1):
            match = INCLUDE.match(text)
            if not match:
                continue
            what = judge(floors, floor, room, *match.groups())
            if what is None and parts[0] == "include" and match.group(1) == '"':
                what = "a public header includes public headers only"
            if what:
                report.add(path, number, what)
    look_at_list(root, floors, report)
    for name in floors.headers:
        if not os.path.exists(os.path.join(root, "include", "plimsoll", name)):
            report.add(os.path.join(root, "src", "floors.txt"), 1, f"header {name} does not exist")
    report.finish(len(files))


main(sys.argv[1])
