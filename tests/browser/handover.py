"""The handover in a browser: prints on one page of A4, asks the network for nothing, fits a phone, lets no name be markup.

usage: handover.py PLIMSOLL SAMPLES_FOLDER
SPDX-License-Identifier: MIT
"""
import os
import re
import subprocess
import sys
import tempfile

from chromium import Browser

PHONE_PX = 390
EVIL = "<script>document.title='evil'</script>"
A4_PT = (595, 842)


def write(plimsoll, logs, page):
    """The page; logs that are told of on standard error only are fine."""
    run = subprocess.run([plimsoll, "handover", "--format", "html", "-o", page, *logs], capture_output=True, check=False)
    return run.returncode


def look(browser, page):
    """What is wrong with a page."""
    wrong = []
    browser.window(1000, 1200)
    browser.open("file://" + page)
    asked = [e["params"]["request"]["url"] for e in browser.events if e.get("method") == "Network.requestWillBeSent"]
    if asked != ["file://" + page]:
        wrong.append(f"asks for {asked}")
    said = [e for e in browser.events if e.get("method") in ("Runtime.exceptionThrown", "Log.entryAdded", "Runtime.consoleAPICalled")]
    if said:
        wrong.append(f"the console says {said[0]}")
    if browser.value("document.title") == "evil" or browser.value("document.querySelectorAll('script').length") != 0:
        wrong.append("holds a script")
    browser.pdf(page + ".pdf")
    printed = open(page + ".pdf", "rb").read()
    pages = len(re.findall(rb"/Type\s*/Page\b", printed))
    box = re.search(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)", printed)
    size = tuple(round(float(side)) for side in box.groups()) if box else None
    if pages != 1 or size is None or any(abs(a - b) > 1 for a, b in zip(size, A4_PT)):
        wrong.append(f"prints on {pages} pages of {size} pt")
    browser.window(PHONE_PX, 800, mobile=True)
    browser.open("file://" + page)
    if browser.value("document.documentElement.scrollWidth") > PHONE_PX:
        wrong.append("scrolls sideways on a phone")
    return wrong


def evil_log(path):
    with open(path, "w", encoding="utf-8") as log:
        log.write(f"diver: {EVIL}\nsite: {EVIL}\nrecorder: {EVIL}\nstart: 2031-05-06 09:00\ntime_s,depth_m\n0,0\n120,30\n1500,30\n1800,0\n")


def main(plimsoll, samples):
    wrong = 0
    with tempfile.TemporaryDirectory() as folder, Browser() as browser:
        evil = os.path.join(folder, "evil.csv")
        evil_log(evil)
        day_3, day_5 = os.path.join(samples, "expedition", "day-3"), os.path.join(samples, "expedition", "day-5")
        sets = {
            "deep": [os.path.join(samples, "deep-terrace.uddf")],
            "wall": [os.path.join(samples, "outer-wall.uddf")],
            "lagoon": [os.path.join(samples, "lagoon-nitrox.csv")],
            "series": [os.path.join(day_3, "tern-handset.csv"), os.path.join(day_5, "tern-wrist.csv"), os.path.join(day_5, "tern-handset.csv")],
            "evil": [evil],
        }
        for name, logs in sets.items():
            page = os.path.join(folder, name + ".html")
            code = write(plimsoll, logs, page)
            faults = look(browser, page) if os.path.exists(page) else [f"is not there; exit {code}"]
            for fault in faults:
                print(f"{name}: {fault}")
            wrong += len(faults)
    print(f"{len(sets)} pages looked at, {wrong} wrong")
    return wrong > 0


sys.exit(main(*sys.argv[1:]))
