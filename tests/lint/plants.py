"""Plants one fault after another in a small house and fails when a lint test does not see it.

usage: plants.py LINT_FOLDER COMPILER CXX_COMPILER CTAGS CLANG_FORMAT
SPDX-License-Identifier: MIT
"""
import os
import subprocess
import sys
import tempfile

FLOORS = "floor base\nfloor gas base\nfloor cli public\nroom gas/mixes\nroom gas/density mixes\nheader low.h base\nheader high.h gas\nheader plimsoll.h cli\nlibrary zlib.h gas\n"
OPENING = "/*\n * A file of a small house that the lint tests are tried on.\n * SPDX-License-Identifier: MIT\n */\n"


SHOW = '#define PLM_API __attribute__((visibility("default")))\n'


def header(guard, body=""):
    return f"{OPENING}#ifndef {guard}\n#define {guard}\n{body}#endif\n"


def public_header(guard, body):
    return header(guard, f'#ifdef __cplusplus\nextern "C" {{\n#endif\n{body}#ifdef __cplusplus\n}}\n#endif\n')


SOUND = {
    ".clang-format": "BasedOnStyle: LLVM\nIndentWidth: 4\nBreakBeforeBraces: Linux\nColumnLimit: 120\nSortIncludes: Never\n"
                     "AlignConsecutiveMacros: true\nAllowShortFunctionsOnASingleLine: None\n",
    "src/floors.txt": FLOORS,
    "src/base/text.h": header("PLM_BASE_TEXT_H", "int plmi_base_one(void);\n"),
    "src/base/text.c": OPENING + '#include "base/text.h"\n#include <plimsoll/low.h>\n'
                       "int plmi_base_one(void)\n{\n    return plm_low_get();\n}\n"
                       "int plm_low_get(void)\n{\n    return 1;\n}\n",
    "src/gas/mix.h": header("PLM_GAS_MIX_H", "int plmi_gas_two(void);\n"),
    "src/gas/mix.c": OPENING + '#include "gas/mix.h"\n#include "base/text.h"\n#include <zlib.h>\n'
                     "static const char *const names[] = {\"a\", \"b\"};\n"
                     "int plmi_gas_air(void);\nint plmi_gas_two(void)\n{\n"
                     "    return plmi_base_one() + plmi_gas_air() + names[0][0];\n}\n",
    "src/gas/air.c": OPENING + "int plmi_gas_air(void);\nint plmi_gas_air(void)\n{\n    return 3;\n}\n",
    "src/gas/mixes/air.h": header("PLM_GAS_MIXES_AIR_H", "int plmi_gas_air(void);\n"),
    "src/gas/density/dry.h": header("PLM_GAS_DENSITY_DRY_H", '#include "gas/mixes/air.h"\n'),
    "src/cli/main.c": OPENING + "#include <plimsoll/low.h>\nint plmi_cli_run(void);\nint plmi_cli_run(void)\n"
                      "{\n    return plm_low_get();\n}\n",
    "include/plimsoll/low.h": public_header("PLM_LOW_H", SHOW + "/* One. */\nPLM_API int plm_low_get(void);\n"),
    "include/plimsoll/high.h": public_header("PLM_HIGH_H", "/* Two. */\nint plm_high_get(void);\n"),
    "include/plimsoll/plimsoll.h": header("PLM_PLIMSOLL_H", "#include <plimsoll/high.h>\n#include <plimsoll/low.h>\n"),
    "tests/test_text.c": OPENING + "int main(void)\n{\n    return 0;\n}\n",
    "man/page.1": ".TH x\n",
}


def plant(path, text):
    """The fault `text`, put behind what the file holds."""
    return path, SOUND.get(path, OPENING) + text


LONG = "int plmi_base_long(void)\n{\n" + "    ;\n" * 80 + "    return 0;\n}\n"
# (lint, where, the planted text, a word of the message that it must bring)
PLANTS = [
    ("floors", *plant("src/base/text.c", '#include "gas/mix.h"\n'), "may not use"),
    ("floors", *plant("src/base/text.c", "#include <plimsoll/high.h>\n"), "may not use"),
    ("floors", *plant("include/plimsoll/low.h", "#include <plimsoll/high.h>\n"), "may not use"),
    ("floors", *plant("src/cli/main.c", '#include "base/text.h"\n'), "public headers only"),
    ("floors", *plant("src/base/text.c", "#include <zlib.h>\n"), "belongs to gas"),
    ("floors", *plant("src/base/text.c", "#include <plimsoll/other.h>\n"), "no `header` line"),
    ("floors", *plant("src/attic/text.c", ""), "no floor"),
    ("floors", *plant("src/gas/mixes/air.h", '#include "gas/density/dry.h"\n'), "room gas/mixes includes"),
    ("floors", *plant("src/gas/mixes/air.h", '#include "gas/mix.h"\n'), "room gas/mixes includes"),
    ("floors", *plant("src/gas/attic/air.h", ""), "no `room` line"),
    ("floors", "DEVELOPERS.md", "| base | texts |\n| cli | the program |\n", "no row for floor gas"),
    ("floors", "DEVELOPERS.md", "| base | texts |\n| gas | room `mixes` |\n| cli | the program |\n", "name room gas/density"),
    ("floors", "src/floors.txt", FLOORS.replace("room gas/mixes", "room gas/mixes density"), "not above it"),
    ("floors", "src/floors.txt", FLOORS.replace("floor base", "floor base gas"), "not below it"),
    ("calls", *plant("src/base/text.c", "int plmi_gas_two(void);\nint plmi_base_up(void);\n"
                     "int plmi_base_up(void)\n{\n    return plmi_gas_two();\n}\n"), "which it may not use"),
    ("calls", *plant("src/cli/main.c", "int plmi_base_one(void);\nint plmi_cli_up(void);\n"
                     "int plmi_cli_up(void)\n{\n    return plmi_base_one();\n}\n"), "public functions only"),
    ("calls", *plant("src/base/text.c", "int naked(void);\nint naked(void)\n{\n    return 0;\n}\n"), "neither plm_"),
    ("calls", *plant("src/base/text.c", "int plmi_base_count;\n"), "mutable global"),
    ("calls", *plant("src/base/text.c", "int *plmi_base_next(void);\nint *plmi_base_next(void)\n"
                     "{\n    static int kept = 3;\n    return &kept;\n}\n"), "mutable global"),
    ("sizes", *plant("src/base/text.c", LONG), "cap 80"),
    ("sizes", *plant("src/base/text.c", "/* */\n" * 600), "cap 600"),
    ("style", *plant("src/base/text.c", '    printf("x");\n'), "printf"),
    ("style", *plant("src/base/text.c", "    return atof(x);\n"), "atof"),
    ("style", *plant("src/cli/main.c", '    fputs(name, out);\n'), "fputs"),
    ("style", *plant("src/gas/mix.c", "    plmi_text_add_raw(out, name, n);\n"), "add_raw"),
    ("style", *plant("src/base/text.c", '    snprintf(a, n, "%.2f", x);\n'), "locale"),
    ("style", *plant("src/base/text.c", "\tint x;\n"), "a tab"),
    ("style", *plant("src/base/text.c", "int x; \n"), "white space"),
    ("style", *plant("src/base/text.c", "typedef int plm_depth_t;\n"), "_t"),
    ("style", *plant("src/base/text_utils.c", ""), "says nothing"),
    ("style", "src/base/text.c", "int x;\n", "SPDX"),
    ("style", *plant("src/base/other.h", ""), "PLM_BASE_OTHER_H"),
    ("style", *plant("src/CMakeLists.txt", "file(GLOB x *.c)\n"), "listed"),
    ("style", *plant("docs", ""), "top level"),
    ("format", *plant("src/base/text.c", "int  x;\n"), "laid out"),
    ("format", *plant("src/base/text.c", "int plmi_f(int a)\n{\n    if (a > 1)\n        return 2;\n    return a;\n}\n"), "without braces"),
    ("headers", *plant("include/plimsoll/low.h", "PLM_API int plm_low_put(void);\n"), "without a comment"),
    ("headers", *plant("include/plimsoll/low.h", "struct plm_a { size_t n; };\n"), "compile alone as c11"),
    ("headers", *plant("include/plimsoll/low.h", "struct plm_a { int export; };\n"), "compile alone as c++17"),
    ("headers", "include/plimsoll/low.h", header("PLM_LOW_H", "int plm_low_get(void);\n"), 'no extern "C"'),
    ("headers", "include/plimsoll/plimsoll.h", header("PLM_PLIMSOLL_H", "#include <plimsoll/high.h>\n"), "not include low.h"),
    ("circles", *plant("src/gas/mixes/air.h", '#include "gas/density/dry.h"\n'), "include each other in a circle: gas/density"),
    ("circles", *plant("src/gas/air.c", "int plmi_gas_two(void);\nint plmi_gas_up(void);\n"
                       "int plmi_gas_up(void)\n{\n    return plmi_gas_two();\n}\n"), "call each other in a circle: gas/air"),
    ("exports", *plant("src/base/text.c", '__attribute__((visibility("default"))) int plmi_low(void);\n'
                       "int plmi_low(void)\n{\n    return 0;\n}\n"), "shows plmi_low"),
    ("exports", *plant("include/plimsoll/low.h", "PLM_API int plm_low_put(void);\n"), "plm_low_put is not in"),
    ("man", "man/page.1", ".Dd\n.Sh\n", "page.1"),
    ("man", "man/page.1", '.TH x\n.\\" listing src/gas/mix.c\n.Bd -literal\nint x;\n.Ed\n', "its listing"),
]


class House:
    """A small house in a folder, and the lint tests over it."""

    def __init__(self, root, lints, compiler, cxx_compiler, ctags, clang_format):
        self.root, self.lints, self.compiler, self.ctags = root, lints, compiler, ctags
        self.cxx_compiler, self.clang_format = cxx_compiler, clang_format

    def write(self, path, text):
        full = os.path.join(self.root, path)
        os.makedirs(os.path.dirname(full), exist_ok=True)
        with open(full, "w", encoding="utf-8") as file:
            file.write(text)

    def _compile(self):
        """Objects of the floors and their list, outside the house."""
        rows = []
        for floor, path in (("base", "base/text"), ("gas", "gas/mix"), ("gas", "gas/air"), ("cli", "cli/main")):
            target = os.path.join(self.root + ".objects", f"plmi_{floor}.dir", os.path.basename(path) + ".c.o")
            os.makedirs(os.path.dirname(target), exist_ok=True)
            subprocess.run([self.compiler, "-std=c11", "-fPIC", "-I", os.path.join(self.root, "src"), "-I",
                            os.path.join(self.root, "include"), "-c", os.path.join(self.root, "src", path + ".c"),
                            "-o", target], check=True)
            rows.append(f"{floor} {target}\n")
        listing = self.root + ".objects.txt"
        with open(listing, "w", encoding="utf-8") as file:
            file.writelines(rows)
        return listing

    def _link(self):
        """The lowest floor as a shared library that hides what is not marked."""
        library = self.root + ".so"
        subprocess.run([self.compiler, "-std=c11", "-fPIC", "-shared", "-fvisibility=hidden", "-nostdlib", "-I",
                        os.path.join(self.root, "src"), "-I", os.path.join(self.root, "include"),
                        os.path.join(self.root, "src/base/text.c"), "-o", library], check=True)
        return library

    def run(self, lint):
        more = {"sizes": [self.ctags], "headers": [self.compiler, self.cxx_compiler],
                "format": [self.clang_format]}.get(lint, [])
        if lint in ("calls", "circles"):
            more = [self._compile()]
        if lint == "exports":
            more = [self._link()]
        return subprocess.run([sys.executable, os.path.join(self.lints, lint + ".py"), self.root, *more],
                              capture_output=True, text=True, check=False)


def main(lints, compiler, cxx_compiler, ctags, clang_format):
    failures = 0
    with tempfile.TemporaryDirectory() as folder:
        house = House(os.path.join(folder, "house"), lints, compiler, cxx_compiler, ctags, clang_format)
        for path, text in SOUND.items():
            house.write(path, text)
        for lint in ("floors", "calls", "sizes", "style", "headers", "format", "exports", "circles"):
            run = house.run(lint)
            if run.returncode != 0:
                failures += 1
                print(f"{lint}: fails without a fault:\n{run.stdout}{run.stderr}")
        for lint, path, text, word in PLANTS:
            house.write(path, text)
            run = house.run(lint)
            if run.returncode != 1 or word not in run.stdout:
                failures += 1
                print(f"{lint}: does not see the fault in {path} ({word}):\n{run.stdout}{run.stderr}")
            if path in SOUND:
                house.write(path, SOUND[path])
            else:
                os.remove(os.path.join(house.root, path))
    print(f"{len(PLANTS)} faults planted, {failures} wrong")
    sys.exit(1 if failures else 0)


main(*sys.argv[1:])
