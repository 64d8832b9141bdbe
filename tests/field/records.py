"""Reads the logs of the field in a few lines of its own; calls nothing of the program. What it does not know fails.
SPDX-License-Identifier: MIT
"""
import configparser
import csv
import os
import xml.etree.ElementTree as tree

UDDF = "{http://www.streit.cc/uddf/3.2/}"


def sample(time_s, depth_m, mode, o2, he, setpoint, cells):
    return {"time_s": time_s, "depth_m": depth_m, "mode": mode, "o2": o2, "he": he, "setpoint": setpoint, "cells": cells,
            "loop": vote(cells, setpoint) if mode == "closed" else None}


def vote(cells, setpoint):
    """Mean of the cells within 0.2 bar of the median; the set point where there are none."""
    if not cells:
        return setpoint
    middle = sorted(cells)[len(cells) // 2]
    near = [cell for cell in cells if abs(cell - middle) <= 0.2]
    return sum(near) / len(near)


def canonical(text):
    samples, mode, o2, he, setpoint = [], None, None, None, None
    for row in csv.DictReader(text.splitlines()):
        mode, o2, he = row["mode"] or mode, float(row["o2_frac"] or o2), float(row["he_frac"] or he)
        setpoint = float(row.get("setpoint_bar") or setpoint or 0)
        cells = [float(row[key]) for key in ("cell1_bar", "cell2_bar", "cell3_bar") if row.get(key)]
        samples.append(sample(float(row["time_s"]), float(row["depth_m"]), mode, o2, he, setpoint, cells))
    return samples


def clock_s(text):
    minutes, seconds = text.split(":")
    return 60 * int(minutes) + int(seconds)


def semicolon(text):
    samples = []
    for row in csv.reader(text.splitlines()[1:], delimiter=";"):
        cells = [part.replace(",", ".") for part in row]
        samples.append(sample(clock_s(cells[0]), float(cells[1]), "open", float(cells[3]) / 100, float(cells[4]) / 100, None, []))
    return samples


def card_changes(path):
    """[(time_s, o2, he)] of a card on open circuit."""
    card = configparser.ConfigParser(delimiters=("=",))
    card.read(path)
    mixes = {name: [float(part) / 100 for part in value.split()[0].split("/")] for name, value in card["mixes"].items()}
    return [(clock_s(section[3:]), *mixes[card[section]["mix"]]) for section in card.sections() if section.startswith("at ")]


def feet(text, card):
    changes, samples = card_changes(card), []
    for row in csv.reader(text.splitlines()[1:]):
        time_s = float(row[0]) * 60
        mix = [change for change in changes if change[0] <= time_s + 0.5][-1]
        samples.append(sample(time_s, float(row[1]) * 0.3048, "open", mix[1], mix[2], None, []))
    return samples


def uddf(text):
    root = tree.fromstring(text)
    mixes = {mix.get("id"): (float(mix.find(UDDF + "o2").text), float(mix.find(UDDF + "he").text)) for mix in root.iter(UDDF + "mix")}
    samples, mode, mix, setpoint = [], "open", (None, None), None
    for point in root.iter(UDDF + "waypoint"):
        told, switch, asked = (point.find(UDDF + key) for key in ("divemode", "switchmix", "setpo2"))
        mode = told.get("type").replace("circuit", "") if told is not None else mode
        mix = mixes[switch.get("ref")] if switch is not None else mix
        setpoint = float(asked.text) / 1e5 if asked is not None else setpoint
        cells = [float(cell.text) / 1e5 for cell in point.findall(UDDF + "measuredpo2")]
        samples.append(sample(float(point.find(UDDF + "divetime").text), float(point.find(UDDF + "depth").text), mode, *mix, setpoint, cells))
    return samples


def read(folder, log, card=None):
    with open(os.path.join(folder, log), encoding="utf-8") as file:
        text = file.read()
    if text.startswith("<?xml"):
        return uddf(text)
    if text.startswith("time_s,"):
        return canonical(text)
    return semicolon(text) if text.startswith("Zeit") else feet(text, os.path.join(folder, card))
