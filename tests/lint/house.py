"""What the lint tests share: the floors as src/floors.txt tells them, the files of the house, and symbols of objects.

Must not judge; each test does that and reports through Report.
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

SYMBOL = re.compile(r"^[0-9a-f]+ (.{7}) (\S+)\s+[0-9a-f]+\s+(?:\.hidden |\.protected )?(\S+)$")


class Report:
    """Collects `file:line: what` and turns them into an exit status."""

    def __init__(self, root):
        self.root = root
        self.count = 0

    def add(self, path, line, what):
        self.count += 1
        print(f"{os.path.relpath(path, self.root)}:{line}: {what}")

    def finish(self, looked_at):
        if looked_at == 0:
            print("nothing was looked at")
            sys.exit(1)
        print(f"{looked_at} looked at, {self.count} wrong")
        sys.exit(1 if self.count else 0)


class Floors:
    """uses[floor] = set of floors, or None for the public headers only; rooms[floor] = {room: rooms it may use};
    headers[file] = floor; libraries[system header] = set of floors."""

    def __init__(self, root, report):
        self.order, self.uses, self.rooms, self.headers, self.libraries = [], {}, {}, {}, {}
        path = os.path.join(root, "src", "floors.txt")
        for number, text in enumerate(open(path, encoding="utf-8"), 1):
            words = text.split("#")[0].split()
            if not words:
                continue
            what = self._read(words)
            if what:
                report.add(path, number, what)

    def _read(self, words):
        key, name, rest = words[0], words[1], words[2:]
        if key == "floor":
            if rest == ["public"]:
                self.uses[name] = None
            else:
                upward = [floor for floor in rest if floor not in self.order]
                if upward:
                    return f"floor {name} uses {' '.join(upward)}, not below it"
                self.uses[name] = set(rest)
            self.order.append(name)
        elif key == "room":
            return self._read_room(name, rest)
        elif key == "header" and len(rest) == 1 and rest[0] in self.uses:
            self.headers[name] = rest[0]
        elif key == "library" and rest and all(floor in self.uses for floor in rest):
            self.libraries[name] = set(rest)
        else:
            return f"not understood: {' '.join(words)}"
        return None

    def _read_room(self, name, rest):
        floor, _, room = name.partition("/")
        if floor not in self.uses or not room:
            return f"room {name} is on no floor"
        known = self.rooms.setdefault(floor, {})
        below = [used for used in rest if used not in known]
        if below:
            return f"room {name} uses {' '.join(below)}, not above it in this list"
        known[room] = set(rest)
        return None

    def room_may_use(self, floor, user, used):
        """user and used are rooms of the floor; an empty name stands for its files that are in no room."""
        return user == "" or user == used or used in self.rooms.get(floor, {}).get(user, ())

    def may_use(self, user, used):
        return user == used or self.uses[user] is None or used in self.uses[user]


def c_files(root, *folders):
    """All .c and .h files under the folders, sorted."""
    found = []
    for folder in folders:
        for base, _, names in os.walk(os.path.join(root, folder)):
            found += [os.path.join(base, n) for n in names if n.endswith((".c", ".h"))]
    return sorted(found)


def symbols(path):
    """(flags, section, name) of every symbol of an object."""
    out = subprocess.run(["objdump", "-t", path], check=True, capture_output=True, text=True).stdout
    return [m.groups() for m in map(SYMBOL.match, out.splitlines()) if m]


def first_comment(text):
    """The comment that a C file opens with, or an empty string."""
    if not text.startswith("/*"):
        return ""
    return text[: text.find("*/") + 2]
