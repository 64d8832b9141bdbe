"""Which source files a test program can call, from the symbols of the build: an edit elsewhere is none of its business.

SPDX-License-Identifier: MIT
"""
import os
import subprocess


def _symbols(path, dynamic):
    """(defined, wanted) symbols of an object or a program."""
    out = subprocess.run(["nm", "-D" if dynamic else "-g", path], check=True, capture_output=True, text=True).stdout
    defined, wanted = set(), set()
    for line in out.splitlines():
        *_, kind, name = line.split()
        (wanted if kind in "Uwv" else defined).add(name.split("@")[0])
    return defined, wanted


class Reach:
    """`build` is linked with PLM_TESTED_SHARED: what a test program wants of the library stands among its dynamic symbols."""

    def __init__(self, build):
        self.wants, self.home = {}, {}
        for base, _, names in os.walk(os.path.join(build, "src")):
            for name in names:
                if name.endswith(".c.o"):
                    floor = os.path.basename(os.path.dirname(os.path.dirname(base)))
                    path = f"src/{floor}/{name[:-2]}"
                    defined, self.wants[path] = _symbols(os.path.join(base, name), False)
                    self.home.update((symbol, path) for symbol in defined)

    def of(self, program):
        """The source files that may run when the program does."""
        found, left = set(), set(_symbols(program, True)[1])
        while left:
            path = self.home.get(left.pop())
            if path is not None and path not in found:
                found.add(path)
                left |= self.wants[path]
        return found
