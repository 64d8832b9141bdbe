"""Edits that no one thought of: operators turned, constants moved, statements dropped, at places that a seed chooses.

Only code of src/*/*.c is touched, not comments, texts, or what is included. Floors take turns, so that a small one has its share.
SPDX-License-Identifier: MIT
"""
import os
import random
import re

from table import Edit

HIDDEN = re.compile(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'|^[ \t]*#[ \t]*(?:include|if|ifdef|ifndef|endif|else|elif|undef|error)[^\n]*',
                    re.DOTALL | re.MULTILINE)
COMPARISONS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "=="}
SIGNS = {"+": "-", "-": "+", "+=": "-=", "-=": "+="}
JOINTS = {"&&": "||", "||": "&&"}
SPACED = re.compile(r"(?<=[ (])(<=|>=|==|!=|&&|\|\||\+=|-=|<|>|\+|-)(?= )")
FRACTION = re.compile(r"(?<![\w.])(\d+\.\d+)(?:e(-?\d+))?(?![\w.])")
WHOLE = re.compile(r"(?<![\w.\[])(\d+)(?![\w.\]])")
NEGATED = re.compile(r"(?<=[(=,?:] )-(?=[a-z(])|(?<=[(])-(?=[a-z(])|(?<=return )-(?=[a-z(])")
STATEMENT = re.compile(r"^[ \t]+((?!return\b|break\b|goto\b|else\b|const\b|struct\b|static\b|case\b|do\b)"
                       r"(?:[a-z_][\w.>\[\]*-]* (?:=|\+=|-=|\|=|\*=|/=) [^;\n]*|[a-z_]\w*\([^;\n]*\)|[a-z_][\w.>\[\]-]*(?:\+\+|--)|continue);)$",
                       re.MULTILINE)


def bare(text):
    """The text with everything blanked that is no code; offsets stay."""
    return HIDDEN.sub(lambda match: re.sub(r"[^\n]", "~", match.group()), text)


def moved(number, exponent, up):
    """A constant a tenth off, with the digits that this needs."""
    digits = len(number.split(".")[1])
    tenth = f"{float(number) * (1.1 if up else 0.9):.{digits + 2}f}".rstrip("0")
    tenth += "0" if tenth.endswith(".") else ""
    return tenth + (f"e{exponent}" if exponent else "")


def sites(text):
    """(kind, first, behind, becomes) of every place of one file; `becomes` may be two choices."""
    code, found = bare(text), []
    for match in SPACED.finditer(code):
        word = match.group(1)
        for kind, turns in (("comparison", COMPARISONS), ("sign", SIGNS), ("and/or", JOINTS)):
            if word in turns:
                found.append((kind, *match.span(1), (turns[word],)))
    found += [("sign", *match.span(), ("",)) for match in NEGATED.finditer(code)]
    for match in FRACTION.finditer(code):
        if float(match.group(1)) != 0:
            found.append(("constant", *match.span(), (moved(*match.groups(), True), moved(*match.groups(), False))))
    for match in WHOLE.finditer(code):
        value = int(match.group(1))
        found.append(("bound", *match.span(), tuple(str(other) for other in (value + 1, value - 1) if other >= 0)))
    found += [("statement", *match.span(1), ("{ }",)) for match in STATEMENT.finditer(code)]
    return found


def widened(text, first, behind, becomes):
    """(old, new) with whole lines around the place, as many as make the old text the only one of its file."""
    start, end = text.rfind("\n", 0, first) + 1, text.find("\n", behind)
    for _ in range(12):
        old = text[start:end]
        pattern = r"\s+".join(re.escape(word) for word in old.split())
        if len(re.findall(pattern, text)) == 1:
            return old, text[start:first] + becomes + text[behind:end]
        start = text.rfind("\n", 0, max(0, start - 1)) + 1
    return None


def floors(root):
    """{floor: [(path, text, sites)]} of all floors that have any."""
    found = {}
    for floor in sorted(os.listdir(os.path.join(root, "src"))):
        folder = os.path.join(root, "src", floor)
        for name in sorted(os.listdir(folder)) if os.path.isdir(folder) else []:
            if name.endswith(".c"):
                text = open(os.path.join(folder, name), encoding="utf-8").read()
                places = sites(text)
                if places:
                    found.setdefault(floor, []).append((f"src/{floor}/{name}", text, places))
    return found


def edits(root, seed, count):
    """The first `count` edits of a seed: the same, whatever `count` is."""
    chance, house, made, seen = random.Random(seed), floors(root), [], set()
    order = sorted(house)
    turn = 0
    while len(made) < count:
        floor = order[turn % len(order)]
        turn += 1
        every = [(path, text, place) for path, text, places in house[floor] for place in places]
        kind = chance.choice(sorted({place[0] for _, _, place in every}))
        path, text, (_, first, behind, choices) = chance.choice([row for row in every if row[2][0] == kind])
        becomes = chance.choice(choices)
        told = widened(text, first, behind, becomes)
        if told is None or (path, first, becomes) in seen:
            continue
        seen.add((path, first, becomes))
        was = " ".join(text[first:behind].split())
        made.append(Edit(path, f"{kind}: {was} -> {becomes or 'nothing'}", *told, source=f"seed {seed}"))
    return made
