"""The page of a debrief in a browser: opens without a network, reads out by keys, prints, fits a phone, can be read.

usage: page.py PLIMSOLL GENERATE SAMPLES_FOLDER [KEEP_FOLDER]
What the cursor reads is held against the trace of the same log. Pictures of the page stay in KEEP_FOLDER, if given.
SPDX-License-Identifier: MIT
"""
import csv
import io
import os
import re
import subprocess
import sys
import tempfile

from chromium import Browser

BYTES_MOST = 400_000
PHONE_PX = 390
CONTRAST_LEAST = 4.5        # WCAG 2, AA, text of ordinary size
EVIL = "<script>document.title='evil'</script>"

# What the cursor calls a value: column of the trace, digits, unit.
READINGS = {
    "depth": ("depth_m", 1, " m"), "ceiling": ("ceiling_m", 1, " m"), "water to it": ("clearance_m", 2, " m"), "oxygen": ("po2_bar", 2, " bar"),
    "gradient": ("gradient_pct", 1, " %"), "surfacing gradient": ("surfacing_gradient_pct", 1, " %"), "CNS": ("cns_pct", 1, " %"),
    "ascent": ("rate_m_min", 1, " m/min"), "density": ("density_g_l", 2, " g/L"), "compartment": ("leading_compartment", 0, ""),
}

# Ratio of contrast of every text to what is behind it, as WCAG 2 defines it. Returns the worst, with its words.
CONTRAST = """(() => {
  const part = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const light = (c) => 0.2126 * part(c[0]) + 0.7152 * part(c[1]) + 0.0722 * part(c[2]);
  const numbers = (text) => text.match(/[\\d.]+/g).map(Number);
  const behind = (node) => {
    for (let at = node; at; at = at.parentElement) {
      const group = at.closest('.mark, .mix'), shape = group && node.closest('svg') && group.querySelector('circle, rect');
      if (shape) return numbers(getComputedStyle(shape).fill);
      const colour = numbers(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] > 0) return colour;
    }
    return [255, 255, 255];
  };
  let worst = [99, ''];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text; (text = walk.nextNode());) {
    const element = text.parentElement;
    if (!text.data.trim() || ['SCRIPT', 'STYLE', 'title', 'desc'].includes(element.tagName) || !element.getClientRects().length) continue;
    const look = getComputedStyle(element), front = numbers(element.closest('svg') ? look.fill : look.color);
    const a = light(front), b = light(behind(element)), ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < worst[0]) worst = [ratio, text.data.trim().slice(0, 40)];
  }
  return worst;
})()"""


class Check:
    def __init__(self):
        self.count, self.wrong = 0, 0

    def that(self, holds, what):
        self.count += 1
        if not holds:
            self.wrong += 1
            print("wrong:", what)


def run(*arguments, **options):
    return subprocess.run(arguments, capture_output=True, text=True, check=False, **options)


def debrief(plimsoll, page, *arguments):
    done = run(plimsoll, "debrief", "--format", "html", "-o", page, *arguments)
    assert done.returncode in (0, 1), done.stderr
    return page


def pages_make(plimsoll, generate, samples, folder):
    """The pages looked at, by name."""
    at = lambda name: os.path.join(folder, name)
    deep, plan = os.path.join(samples, "deep-terrace.uddf"), os.path.join(samples, "deep-terrace-plan.uddf")
    with open(deep, encoding="utf-8") as file:
        text = file.read()
    escaped = EVIL.replace("&", "&amp;").replace("<", "&lt;")
    with open(at("evil.uddf"), "w", encoding="utf-8") as file:
        file.write(text.replace(">Tern<", f">{escaped}<").replace(">handset 1<", f">{escaped}<"))
    with open(os.path.join(samples, "survey.ini"), encoding="utf-8") as file:
        often = re.sub(r"^interval_s = 5$", "interval_s = 2", file.read(), flags=re.MULTILINE)
    with open(at("often.ini"), "w", encoding="utf-8") as file:
        file.write(often)
    os.makedirs(at("often/expedition"))
    done = run(generate, at("often.ini"), at("often"))
    assert done.returncode == 0, done.stderr
    return {
        "deep": debrief(plimsoll, at("deep.html"), deep, "--plan", plan),
        "evil": debrief(plimsoll, at("evil.html"), at("evil.uddf")),
        "often": debrief(plimsoll, at("often.html"), at("often/deep-terrace.uddf"), "--plan", plan),
        "two": debrief(plimsoll, at("two.html"), os.path.join(samples, "expedition/day-4/quill.uddf")),
        "wall": debrief(plimsoll, at("wall.html"), os.path.join(samples, "outer-wall.uddf")),
    }


def check_text(check, name, page):
    """The checkers of HTML and XML have nothing to say."""
    done = run("tidy", "-q", "-e", page)
    check.that(done.returncode < 2, f"{name}: tidy finds errors:\n{done.stderr}")
    other = [line for line in done.stderr.splitlines() if "proprietary attribute" not in line and "trimming empty" not in line]
    check.that(not other, f"{name}: tidy warns:\n" + "\n".join(other[:5]))
    with open(page, encoding="utf-8") as file:
        text = file.read()
    depth, begin, pictures = 0, 0, []
    for tag in re.finditer(r"<svg\b|</svg>", text):
        begin = tag.start() if depth == 0 else begin
        depth += 1 if tag.group() == "<svg" else -1
        if depth == 0:
            pictures.append(text[begin:tag.end()])
    check.that(pictures and depth == 0, f"{name}: pictures")
    done = run("xmllint", "--noout", "-", input="<all>" + "".join(pictures) + "</all>")
    check.that(done.returncode == 0, f"{name}: xmllint:\n{done.stderr[:500]}")
    for picture in pictures:
        check.that(re.match(r"<svg[^>]*role=\"img\"[^>]*><title>[^<]+</title><desc>[^<]+</desc>", picture), f"{name}: no title or description: {picture[:80]}")
    return len(text.encode())


def check_quiet(check, name, browser, page):
    """Opens the page: nothing is complained of, and nothing is asked for but the file itself."""
    browser.open("file://" + page)
    wanted = [event["params"]["request"]["url"] for event in browser.events if event.get("method") == "Network.requestWillBeSent"]
    check.that(wanted == ["file://" + page], f"{name}: requests {wanted}")
    check.that(browser.value("performance.getEntriesByType('resource').length") == 0, f"{name}: resources")
    loud = [event for event in browser.events if event.get("method") in ("Runtime.exceptionThrown", "Log.entryAdded", "Runtime.consoleAPICalled")]
    check.that(not loud, f"{name}: console {loud}")
    check.that(browser.value("document.documentElement.scrollWidth <= innerWidth"), f"{name}: scrolls sideways at {browser.value('innerWidth')} px")


def reading(browser):
    """What the cursor shows, by name, and what it says aloud."""
    shown = browser.value("Object.fromEntries(Array.from(document.querySelectorAll('.reading [data-name]'), (one) => "
                          "[one.dataset.name, one.querySelector('b').textContent]))")
    return browser.value("document.querySelector('.reading .now').textContent"), shown, browser.value("document.querySelector('.spoken').textContent")


def clock(seconds):
    whole = round(seconds)
    return f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}" if whole >= 3600 else f"{whole // 60}:{whole % 60:02d}"


def check_reading(check, what, browser, row):
    now, shown, said = reading(browser)
    check.that(now == clock(float(row["time_s"])), f"{what}: at {now}, not {row['time_s']} s")
    check.that(said.startswith(now), f"{what}: said {said!r}")
    for name, (column, digits, unit) in READINGS.items():
        if name in ("ceiling", "water to it") and not float(row["ceiling_m"]) > 0:
            check.that(shown[name] == "-", f"{what}: {name} {shown[name]}")
            continue
        check.that(shown[name].endswith(unit), f"{what}: {name} {shown[name]}")
        off = abs(float(shown[name].removesuffix(unit)) - float(row[column]))
        check.that(off <= 0.5001 * 10 ** -digits + 1e-9, f"{what}: {name} {shown[name]} where the trace has {row[column]}")
        check.that(f"{name} {shown[name]}" in said, f"{what}: {name} is not said in {said!r}")


def check_cursor(check, browser, plimsoll, log):
    rows = list(csv.DictReader(io.StringIO(run(plimsoll, "trace", "--no-schedule", log).stdout)))
    times = [float(row["time_s"]) for row in rows]
    nearest = lambda time: min(range(len(times)), key=lambda i: abs(times[i] - time))
    browser.value("document.querySelector('.reading').focus()")
    check.that(browser.value("document.activeElement.getAttribute('role')") == "slider", "the bar takes the focus")
    browser.key("Home")
    check_reading(check, "Home", browser, rows[0])
    for _ in range(3):
        browser.key("ArrowRight")
    check_reading(check, "three to the right", browser, rows[3])
    for _ in range(4):
        browser.key("ArrowRight", shift=True)
    check_reading(check, "four minutes on", browser, rows[nearest(times[3] + 240)])
    for _ in range(14):
        browser.key("PageUp")
    at = nearest(times[3] + 240 + 14 * 600)
    check_reading(check, "140 minutes on", browser, rows[at])
    browser.key("ArrowLeft")
    check_reading(check, "one to the left", browser, rows[at - 1])
    browser.key("End")
    check_reading(check, "End", browser, rows[-1])
    # By pointer: the middle of the dive.
    place = browser.value("(() => { const box = document.querySelector('svg.depth'); box.scrollIntoView(); const rect = box.getBoundingClientRect();"
                          "return [rect.left, rect.top, rect.width, Number(document.querySelector('.pictures').dataset.share)]; })()")
    browser.ask("Input.dispatchMouseEvent", type="mouseMoved", x=round(place[0] + place[2] * place[3] / 2), y=round(place[1] + 150))
    now = reading(browser)[0]
    off = abs(sum(int(part) * 60 ** i for i, part in enumerate(reversed(now.split(":")))) - times[-1] / 2)
    check.that(off <= times[-1] / place[2] + 5, f"pointer at the middle: {now}")


def check_tongues(check, name, browser):
    """Every graphic has a name and a description for those who listen."""
    nodes = browser.ask("Accessibility.getFullAXTree")["nodes"]
    pictures = [node for node in nodes if node.get("role", {}).get("value") in ("image", "img", "graphics-document") and not node["ignored"]]
    check.that(len(pictures) >= 5, f"{name}: {len(pictures)} graphics are told")
    for node in pictures:
        check.that(node.get("name", {}).get("value") and node.get("description", {}).get("value"), f"{name}: a graphic without a name: {node.get('name')}")


def check_print(check, name, browser, folder, most):
    path = os.path.join(folder, f"{name}.pdf")
    browser.window(1280, 900)
    browser.pdf(path)
    pages = int(re.search(r"^Pages:\s+(\d+)", run("pdfinfo", path).stdout, re.MULTILINE).group(1))
    check.that(1 <= pages <= most, f"{name}: {pages} pages")
    words = run("pdftotext", path, "-").stdout
    for part in ("Cautions", "Loading of the compartments", "Decompression owed and done", "What was assumed"):
        check.that(part in words, f"{name}: the print lacks {part}")


def check_without_script(check, browser, page):
    browser.ask("Emulation.setScriptExecutionDisabled", value=True)
    browser.open("file://" + page)
    check.that(browser.value("getComputedStyle(document.querySelector('.reading')).display") == "none", "without script: the bar hides")
    check.that(browser.value("document.querySelector('svg.depth').getBoundingClientRect().height") > 100, "without script: pictures")
    browser.ask("Emulation.setScriptExecutionDisabled", value=False)


def check_evil(check, browser, page):
    browser.open("file://" + page)
    check.that("evil" not in browser.value("document.title"), "a diver's name ran")
    check.that(browser.value("document.scripts.length") == 1, "a diver's name became a script")
    check.that(EVIL in browser.value("document.querySelector('.who').textContent"), "a diver's name is not shown as it is")


def check_looks(check, browser, pages, keep):
    for dark in (False, True):
        for width in (1280, PHONE_PX):
            browser.window(width, 900, dark, mobile=width == PHONE_PX)
            for name, page in pages.items():
                check_quiet(check, name, browser, page)
                worst = browser.value(CONTRAST)
                check.that(worst[0] >= CONTRAST_LEAST, f"{name}, dark {dark}: contrast {worst}")
                if keep:
                    browser.picture(os.path.join(keep, f"{name}-{width}-{'dark' if dark else 'light'}.png"))


def main(plimsoll, generate, samples, keep=None):
    check = Check()
    with tempfile.TemporaryDirectory() as folder:
        pages = pages_make(plimsoll, generate, os.path.realpath(samples), folder)
        sizes = {name: check_text(check, name, page) for name, page in pages.items()}
        check.that(sizes["often"] < BYTES_MOST, f"{sizes['often']} bytes for four hours at 2 s")
        with Browser() as browser:
            check_looks(check, browser, pages, keep)
            browser.window(1280, 900)
            for name in ("deep", "wall"):
                browser.open("file://" + pages[name])
                check_tongues(check, name, browser)
                check_print(check, name, browser, keep or folder, 2)
            browser.open("file://" + pages["deep"])
            check_cursor(check, browser, plimsoll, os.path.join(samples, "deep-terrace.uddf"))
            check_evil(check, browser, pages["evil"])
            check_without_script(check, browser, pages["deep"])
    print(f"{check.count} looked at, {check.wrong} wrong; bytes: {sizes}")
    sys.exit(1 if check.wrong else 0)


main(*sys.argv[1:])
