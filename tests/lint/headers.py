"""Fails on a public header that C or C++ cannot use alone, that shows a function without its contract, or that the
umbrella header leaves out.

usage: headers.py ROOT COMPILER CXX_COMPILER
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys

from house import Report, c_files

PUBLIC = re.compile(r"^\s*(PLM_API\b.*|PLM_API)$")
INCLUDED = re.compile(r"^#include <plimsoll/(\w+\.h)>$", re.MULTILINE)
BEGIN, END = '#ifdef __cplusplus\nextern "C" {\n#endif\n', "#ifdef __cplusplus\n}\n#endif\n"
UMBRELLA = "plimsoll.h"
LANGUAGES = (("c", "c11"), ("c++", "c++11"), ("c++", "c++17"))


def undocumented(lines):
    """Line numbers of PLM_API declarations that no comment ends right above."""
    for number, line in enumerate(lines, 1):
        if PUBLIC.match(line) and (number < 2 or not lines[number - 2].rstrip().endswith("*/")):
            yield number


def declares(text):
    """Whether there is more in a header than includes and macros."""
    return ";" in re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)


def compile_alone(root, path, compilers, report):
    for language, standard in LANGUAGES:
        run = subprocess.run([compilers[language], f"-std={standard}", "-Wall", "-Wextra", "-Werror", "-fsyntax-only", "-x",
                              language, "-I", os.path.join(root, "include"), "-include", path, os.devnull],
                             capture_output=True, text=True, check=False)
        if run.returncode != 0:
            report.add(path, 1, f"does not compile alone as {standard}:\n" + run.stderr)


def main(root, c_compiler, cxx_compiler):
    report = Report(root)
    headers = c_files(root, "include")
    compilers = {"c": c_compiler, "c++": cxx_compiler}
    for path in headers:
        text = open(path, encoding="utf-8").read()
        for number in undocumented(text.splitlines()):
            report.add(path, number, "a public function without a comment right above it")
        if declares(text) and (text.count(BEGIN) != 1 or text.count(END) != 1):
            report.add(path, 1, 'has no extern "C" around its declarations for C++')
        compile_alone(root, path, compilers, report)
    umbrella = os.path.join(root, "include", "plimsoll", UMBRELLA)
    included = set(INCLUDED.findall(open(umbrella, encoding="utf-8").read()))
    for path in headers:
        if path != umbrella and os.path.basename(path) not in included:
            report.add(umbrella, 1, f"does not include {os.path.basename(path)}")
    report.finish(len(headers))


main(os.path.abspath(sys.argv[1]), *sys.argv[2:])
