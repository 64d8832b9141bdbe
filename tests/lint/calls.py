"""Fails on a call upward, a symbol outside our name space, or a mutable global.

usage: calls.py ROOT OBJECTS, where OBJECTS is a file with lines `FLOOR OBJECT`.
Reads the symbol tables that objdump prints.
SPDX-License-Identifier: MIT
"""
import sys

from house import Floors, Report, symbols


def is_mutable(flags, section):
    """A datum in a section that stays writable once the program runs."""
    return (flags[6] == "O" and not section.startswith(".data.rel.ro")
            and (section.startswith((".data", ".bss", ".tdata", ".tbss")) or section == "*COM*"))


def main(root, list_path):
    report = Report(root)
    floors = Floors(root, report)
    objects = [line.split() for line in open(list_path, encoding="utf-8") if line.strip()]
    defined, wanted = {}, []
    for floor, path in objects:
        for flags, section, name in symbols(path):
            if section == "*UND*":
                wanted.append((floor, path, name))
                continue
            if is_mutable(flags, section):
                report.add(path, 0, f"{name} is a mutable global ({section})")
            if flags[0] not in "gu" or section == "*ABS*":
                continue
            defined[name] = floor
            if not name.startswith("plmi_") and (not name.startswith("plm_") or floor == "cli"):
                report.add(path, 0, f"{name} is neither plm_... nor plmi_...")
    for floor, path, name in wanted:
        used = defined.get(name)
        if used is not None and not floors.may_use(floor, used):
            report.add(path, 0, f"floor {floor} calls {name} of floor {used}, which it may not use")
        if used is not None and floors.uses[floor] is None and used != floor and not name.startswith("plm_"):
            report.add(path, 0, f"floor {floor} calls {name}; it may use the public functions only")
    report.finish(len(objects))


main(sys.argv[1], sys.argv[2])
