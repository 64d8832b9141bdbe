"""Reads the samples' logs in a few lines of its own: the canonical table, the table with a preamble, UDDF as the samples' recorders write it.
What it does not know fails. SPDX-License-Identifier: MIT
"""
import csv
import gzip
import xml.etree.ElementTree as tree

UDDF = "{http://www.streit.cc/uddf/3.2/}"


def content(path):
    with open(path, "rb") as file:
        data = file.read()
    return (gzip.decompress(data) if data[:2] == b"\x1f\x8b" else data).decode()


def median(cells):
    """Of three cells that agree; others are not for this reader."""
    low, middle, high = sorted(cells)
    if high - middle > 0.15 or middle - low > 0.15:
        raise ValueError(f"cells apart: {cells}")
    return middle


def canonical(text):
    """Mode, mix and set point hold until they are told again."""
    samples, mode, o2, he, setpoint = [], None, None, None, None
    for row in csv.DictReader(text.splitlines()):
        mode, o2, he = row["mode"] or mode, float(row["o2_frac"] or o2), float(row["he_frac"] or he)
        setpoint = float(row.get("setpoint_bar") or setpoint or 0)
        loop = median([float(row[f"cell{i}_bar"]) for i in (1, 2, 3)]) if mode == "closed" else None
        samples.append({"time_s": float(row["time_s"]), "depth_m": float(row["depth_m"]), "o2": o2, "he": he, "loop": loop,
                        "setpoint": setpoint if mode == "closed" else None})
    return samples


def preamble(text):
    """Lines of keys, a blank one, then a table that names its mix in each row."""
    samples = []
    for row in csv.DictReader(text[text.index("\n\n") + 2:].splitlines()):
        if row["Mode"] != "open":
            raise ValueError("a loop")
        o2, he = (float(part) / 100 for part in row["Gas"].split("/"))
        samples.append({"time_s": float(row["Time (s)"]), "depth_m": float(row["Depth (m)"]), "o2": o2, "he": he, "loop": None, "setpoint": None})
    return samples


def uddf(text, index):
    """The dive of an index from 0, on open circuit."""
    root = tree.fromstring(text)
    mixes = {mix.get("id"): (float(mix.find(UDDF + "o2").text), float(mix.find(UDDF + "he").text)) for mix in root.iter(UDDF + "mix")}
    samples, mix = [], None
    for point in root.findall(f".//{UDDF}samples")[index]:
        mode, switch = point.find(UDDF + "divemode"), point.find(UDDF + "switchmix")
        if mode is not None and mode.get("type") != "opencircuit":
            raise ValueError("a loop")
        mix = mixes[switch.get("ref")] if switch is not None else mix
        samples.append({"time_s": float(point.find(UDDF + "divetime").text), "depth_m": float(point.find(UDDF + "depth").text), "o2": mix[0],
                        "he": mix[1], "loop": None, "setpoint": None})
    return samples


def read(path, index=0):
    text = content(path)
    if text.startswith("<?xml"):
        return uddf(text, index)
    return canonical(text) if text.startswith("time_s,") else preamble(text)
