"""Fails on files that include each other in a circle, or objects that call each other in one, however long.

usage: circles.py ROOT OBJECTS, where OBJECTS is a file with lines `FLOOR OBJECT`.
A .c file and the header of its name are one. What one object wants of another it calls, data as well as functions.
SPDX-License-Identifier: MIT
"""
import os
import re
import sys

from house import Report, c_files, symbols

INCLUDE = re.compile(r'^#include "([^"]+)\.h"', re.MULTILINE)


def includes(root):
    """file without its ending -> those whose headers it or its header includes."""
    edges = {}
    for path in c_files(root, "src"):
        name = os.path.splitext(os.path.relpath(path, os.path.join(root, "src")))[0]
        used = INCLUDE.findall(open(path, encoding="utf-8").read())
        edges.setdefault(name, set()).update(other for other in used if other != name)
    return edges


def calls(list_path):
    """object, as its source is named, -> objects whose symbols it wants."""
    defined, wanted = {}, []
    for line in open(list_path, encoding="utf-8"):
        floor, path = line.split()
        name = floor + "/" + os.path.normpath(path.partition(f"plmi_{floor}.dir/")[2] or os.path.basename(path))
        name = name.removesuffix(".o").removesuffix(".c")
        for flags, section, symbol in symbols(path):
            if section == "*UND*":
                wanted.append((name, symbol))
            elif flags[0] in "gu" and section != "*ABS*":
                defined[symbol] = name
    edges = {name: set() for name in defined.values()}
    for name, symbol in wanted:
        if defined.get(symbol, name) != name:
            edges.setdefault(name, set()).add(defined[symbol])
    return edges


def reached(edges, start):
    """All that can be come to from start, not start itself unless by a circle."""
    found, waiting = set(), list(edges.get(start, ()))
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += edges.get(name, ())
    return found


def circles(edges):
    """The sets of names of which each comes to each other one."""
    reach = {name: reached(edges, name) for name in edges}
    found = {frozenset(other for other in reach[name] if name in reach.get(other, ())) for name in edges}
    return sorted(sorted(circle) for circle in found if circle)


def main(root, list_path):
    report = Report(root)
    looked_at = 0
    for what, edges in (("include", includes(root)), ("call", calls(list_path))):
        looked_at += len(edges)
        for circle in circles(edges):
            report.add(os.path.join(root, "src", circle[0]), 0, f"{what} each other in a circle: {', '.join(circle)}")
    report.finish(looked_at)


main(os.path.abspath(sys.argv[1]), sys.argv[2])
