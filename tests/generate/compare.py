"""Fails when the generator does not write the committed samples again, byte for byte.

usage: compare.py GENERATE SAMPLES
Compressed files are compared by what they hold: their bytes are the compressor's affair.
SPDX-License-Identifier: MIT
"""
import gzip
import os
import subprocess
import sys
import tempfile


def content(path):
    data = open(path, "rb").read()
    return gzip.decompress(data) if data[:2] == b"\x1f\x8b" else data


def files(folder):
    """Everything below the folder, by its name in it."""
    found = set()
    for base, _, names in os.walk(folder):
        found.update(os.path.relpath(os.path.join(base, name), folder) for name in names)
    return found


def main(generate, samples):
    written_by_hand = {"README.md", "demo", "make", "survey.ini", "examples/CMakeLists.txt", "examples/own_reviewer.c",
                       "examples/terrace.log"}
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        os.mkdir(os.path.join(folder, "expedition"))
        subprocess.run([generate, os.path.join(samples, "survey.ini"), folder], check=True)
        made, kept = files(folder), files(samples) - written_by_hand
        wrong += [f"{name}: the generator does not write it" for name in sorted(kept - made)]
        wrong += [f"{name}: is not among the samples" for name in sorted(made - kept)]
        wrong += [f"{name}: differs" for name in sorted(made & kept)
                  if content(os.path.join(folder, name)) != content(os.path.join(samples, name))]
        readme = open(os.path.join(samples, "README.md"), encoding="utf-8").read()
        wrong += [f"{name}: README.md has no word of it" for name in sorted(made)
                  if not name.endswith(".card") and f"`{os.path.basename(name)}`" not in readme]
    print(*wrong, sep="\n")
    print(f"{len(made)} files made, {len(wrong)} wrong")
    sys.exit(1 if wrong or not made else 0)


main(sys.argv[1], sys.argv[2])
