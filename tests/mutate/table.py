"""Edits as text: what to replace in which file, by what, and why anyone would care.

A table is a text file of blocks parted by empty lines; lines that begin with # are comments:

    file src/gas/mix.c
    why  names nitrox 22 air
    - mix->o2_frac <= 0.215
    + mix->o2_frac <= 0.22

`-` is the text, which stands in the file exactly once; white space counts as white space, however long, so that what
is indented anew is still found. `+` is what it becomes; without `+` the text is dropped. Either may take several lines.
`later REASON` says that no test is due yet, `same REASON` that the edit changes nothing that can be seen.
SPDX-License-Identifier: MIT
"""
import dataclasses
import hashlib
import os
import re

FIELDS = ("file", "why", "later", "same")


@dataclasses.dataclass
class Edit:
    """One edit; `source` is where it is written down."""
    path: str
    why: str
    old: str
    new: str
    later: str = ""
    same: str = ""
    source: str = ""

    @property
    def name(self):
        """The same for the same edit, whatever is said about it."""
        told = "\0".join((self.path, " ".join(self.old.split()), " ".join(self.new.split())))
        return hashlib.sha256(told.encode()).hexdigest()[:16]

    def span(self, text):
        """(first, behind) of the text to replace; ValueError where it is stale."""
        pattern = r"\s+".join(re.escape(word) for word in self.old.split())
        found = list(re.finditer(pattern, text))
        if len(found) != 1:
            raise ValueError(f"stands {len(found)} times in {self.path}")
        return found[0].span()

    def apply(self, text):
        first, behind = self.span(text)
        return text[:first] + self.new + text[behind:]

    def block(self):
        """The edit as a table has it."""
        lines = [f"file {self.path}", f"why  {self.why}"]
        lines += [f"{field} {getattr(self, field)}" for field in ("later", "same") if getattr(self, field)]
        lines += ["- " + line for line in self.old.split("\n")]
        lines += ["+ " + line for line in self.new.split("\n")] if self.new else []
        return "\n".join(lines) + "\n"


def _edit(lines, where):
    told, sides = {}, {"-": [], "+": []}
    for line in lines:
        if line[:2] in ("- ", "+ ") or line in ("-", "+"):
            sides[line[0]].append(line[2:])
            continue
        field, _, rest = line.partition(" ")
        if field not in FIELDS or field in told or not rest.strip():
            raise SystemExit(f"{where}: not a line of an edit: {line}")
        told[field] = rest.strip()
    old, new = "\n".join(sides["-"]), "\n".join(sides["+"])
    if "file" not in told or "why" not in told or not old.strip() or old == new:
        raise SystemExit(f"{where}: an edit needs file, why, and a text that becomes another")
    return Edit(told["file"], told["why"], old, new, told.get("later", ""), told.get("same", ""), where)


def read(path):
    """All edits of one table."""
    edits, block, first = [], [], 0
    for number, line in enumerate(open(path, encoding="utf-8").read().split("\n") + [""], 1):
        if line.startswith("#"):
            continue
        if line.strip():
            first = first if block else number
            block.append(line)
        elif block:
            edits.append(_edit(block, f"{path}:{first}"))
            block = []
    return edits


def read_folder(folder):
    edits = []
    for name in sorted(os.listdir(folder)):
        if name.endswith(".edits"):
            edits += read(os.path.join(folder, name))
    return edits


def stale(root, edits):
    """What is wrong with edits that no longer fit the tree: (edit, words)."""
    found, seen, texts = [], {}, {}
    for edit in edits:
        if edit.name in seen:
            found.append((edit, f"is {seen[edit.name]} once more"))
        seen[edit.name] = edit.source
        try:
            if edit.path not in texts:
                texts[edit.path] = open(os.path.join(root, edit.path), encoding="utf-8").read()
            edit.span(texts[edit.path])
        except (OSError, ValueError) as error:
            found.append((edit, str(error)))
    return found
