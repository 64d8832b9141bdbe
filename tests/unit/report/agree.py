"""Fails where text, JSON, CSV and HTML of a debrief do not tell the same figures to the digit.

usage: agree.py PLIMSOLL SCHEMA LOG...
Reads JSON numbers as they are written. Also: JSON fits the schema that is shipped, and holds no key that it lacks.
SPDX-License-Identifier: MIT
"""
import copy
import csv
import html.parser
import io
import json
import subprocess
import sys

import jsonschema

SECTIONS = ["source", "dive", "profile", "model", "counts", "loading", "decompression", "oxygen", "gas"]


class Number(str):
    """A JSON number as written."""


def run(plimsoll, *arguments):
    done = subprocess.run([plimsoll, *arguments], capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1, 2), done.stderr
    return done.stdout


def run_trace(plimsoll, *arguments):
    return run(plimsoll, "trace", *arguments)


def duration(seconds):
    whole = int(seconds)
    if whole >= 3600:
        return f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"
    return f"{whole // 60}:{whole % 60:02d}"


def strict(schema):
    """The schema with no room for keys that it does not name."""
    if isinstance(schema, dict):
        for value in schema.values():
            strict(value)
        if "properties" in schema:
            schema["additionalProperties"] = False
    elif isinstance(schema, list):
        for value in schema:
            strict(value)
    return schema


class Check:
    def __init__(self):
        self.count, self.wrong = 0, 0

    def same(self, what, a, b):
        self.count += 1
        if a != b:
            self.wrong += 1
            print(f"{what}: {a!r} is not {b!r}")

    def told(self, what, words, text):
        self.count += 1
        if words not in text:
            self.wrong += 1
            print(f"{what}: {words!r} is not told")


def cell(value):
    """A JSON value as its CSV cell."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def is_limit(finding):
    """A limit of 0 tells people nothing, and is for programs alone."""
    return finding["limit"] is not None and float(finding["limit"]) != 0


def check_csv(check, dive, row):
    for section in SECTIONS:
        for key, value in (dive[section] or {}).items():
            if not isinstance(value, list):
                check.same(f"csv {section}.{key}", row[key], cell(value))
    for band in dive["oxygen"]["over"]:
        check.same("csv band", row[f"over_{band['limit_bar']}_bar_min"], band["over_min"])


def check_findings_csv(check, dive, rows):
    check.same("findings", len(rows), len(dive["findings"]))
    for finding, row in zip(dive["findings"], rows):
        for key in ("kind", "severity", "from_s", "to_s", "from_depth_m", "to_depth_m", "value", "limit", "unit", "text", "hold"):
            check.same(f"findings csv {key}", row[key], cell(finding[key]))
        for key, value in (finding["cost"] or {}).items():
            check.same(f"findings csv {key}", row["put_right" if key == "put_right" else "cost_" + key], cell(value))


def check_figures(check, dive, text):
    loading, oxygen, gas = dive["loading"], dive["oxygen"], dive["gas"]
    check.told("depth", f"To {dive['profile']['max_depth_m']} m at {duration(dive['profile']['max_depth_at_s'])}; "
               f"{duration(dive['profile']['duration_s'])} recorded", text)
    check.told("surfacing", f"{loading['surfacing_gradient_pct']} % of the M-value gradient, compartment "
               f"{loading['surfacing_compartment']}", text)
    check.told("peak", f"{loading['peak_gradient_pct']} % at {duration(loading['peak_at_s'])}, {loading['peak_depth_m']} m", text)
    check.told("clocks", f"{oxygen['cns_pct']} % of a single exposure, {oxygen['cns_day_pct']} % of 24 hours", text)
    check.told("dose", f"{oxygen['otu']} OTU; ESOT {oxygen['esot']}", text)
    check.told("bands", " ".join(band["over_min"] for band in oxygen["over"]), text)
    check.told("density", f"{gas['max_density_g_l']} g/L at the most, at {duration(gas['max_density_at_s'])}", text)
    for mix in gas["mixes"]:
        check.told("mix", f"{mix['mix']} {mix['mode']} {mix['minutes']} {mix['least_depth_m']} {mix['most_depth_m']}", text)


def check_decompression(check, dive, text):
    found = dive["decompression"]
    check.told("state", found["ceiling_state"], text)
    if float(str(found["owed_min"])) > 0:
        check.told("required", f"{found['owed_min']} min of stops; {duration(found['tts_s'])} to the surface", text)
        check.told("done", f"{found['done_min']} min at these stops", text)
    check.told("ascent", f"{duration(found['ascent_s'])}, from leaving the bottom", text)
    if found["deco_cost_min_per_min"] is not None:
        check.told("cost", f"have cost {found['deco_cost_min_per_min']} min more", text)
    for stop in found["stops"]:
        plus = "+" if not stop["difference_min"].startswith("-") and float(stop["difference_min"]) else ""
        check.told("stop", f"{stop['depth_m']} {stop['owed_min']} {stop['done_min']} {plus}{stop['difference_min']}", text)


def check_findings(check, dive, text):
    for number, finding in enumerate(dive["findings"], 1):
        words = f"{number} {finding['severity']} {finding['kind']} {duration(finding['from_s'])} {duration(finding['to_s'])}"
        check.told("finding", words, text)
        if finding["value"] is not None:
            limit = finding["limit"] if is_limit(finding) else "-"
            check.told("value", f" {finding['value']} {limit} {finding['unit']}".rstrip(), text)
        check.told("sentence", " ".join(finding["text"].split()), text)
    for caution in dive["cautions"]:
        check.told("caution", caution, text)


class Page(html.parser.HTMLParser):
    """The words of a page: of each article, and of each row of its findings by number. Pictures are left out."""

    VOID = {"meta", "link", "br"}
    SILENT = {"svg", "script", "style", "details"}

    def __init__(self, page):
        super().__init__()
        self.articles, self.findings, self.stack, self.row = [], [], [], None
        self.feed(page)
        self.close()
        self.articles = [" ".join(" ".join(words).split()) for words in self.articles]
        self.findings = [{number: " ".join(" ".join(words).split()) for number, words in rows.items()} for rows in self.findings]

    def handle_starttag(self, tag, attrs):
        if tag in self.VOID:
            return
        attributes = dict(attrs)
        self.stack.append(tag)
        if tag == "article":
            self.articles.append([])
            self.findings.append({})
        if tag == "tr":
            name = attributes.get("id") or ""
            self.row = int(name.rsplit("-", 1)[1]) if "-finding-" in name else None
            if self.row is not None:
                self.findings[-1][self.row] = []

    def handle_endtag(self, tag):
        if tag in self.VOID:
            return
        assert self.stack and self.stack[-1] == tag, f"{tag} ends within {self.stack}"
        self.stack.pop()
        if tag == "tr":
            self.row = None

    def handle_data(self, data):
        if "article" not in self.stack or self.SILENT & set(self.stack):
            return
        self.articles[-1].append(data)
        if self.row is not None:
            self.findings[-1][self.row].append(data)


def unsigned(number):
    return number.removeprefix("-")


def check_html_finding(check, number, finding, row):
    check.told("html finding", f"{number} {finding['severity']} ", row)
    check.told("html when", duration(finding["from_s"]), row)
    check.told("html sentence", " ".join(finding["text"].split()), row)
    if finding["value"] is not None:
        check.told("html value", f" {finding['value']} {finding['unit']}".rstrip(), row)
        if is_limit(finding):
            check.told("html limit", f"limit {finding['limit']} {finding['unit']}".rstrip(), row)
    if finding["hold"] is not None:
        check.told("html hold", finding["hold"].capitalize(), row)
        for value in finding["value_range"]:
            check.told("html range", value or "", row)
    for key, words in (("decompression_min", "min of decompression"), ("surfacing_gradient_points", "points of surfacing gradient"),
                       ("peak_gradient_points", "points of peak gradient"), ("cns_points", "points of CNS")):
        cost = (finding["cost"] or {}).get(key)
        if cost is not None and float(cost):
            check.told("html cost", f"{unsigned(cost)} {words}", row)
    if finding["cost"]:
        check.told("html put right", finding["cost"]["put_right"], row)


def check_html_plan(check, dive, article):
    for row in (dive["plan"] or {"table": []})["table"]:
        if isinstance(row["planned"], Number) or isinstance(row["done"], Number):
            change = row["difference"] or ""
            plus = "+" if change and not change.startswith("-") and float(change) else ""
            check.told("html plan", " ".join(f"{row['what']} {row['planned'] or '-'} {row['done'] or '-'} {plus}{change} {row['unit']}".split()),
                       article)
        else:
            check.told("html plan words", f"{row['what']} {row['done']}", article)


def check_html(check, plimsoll, log, dives):
    page = Page(run(plimsoll, "debrief", "--format", "html", log))
    check.same("articles", len(page.articles), len(dives))
    for dive, article, findings in zip(dives, page.articles, page.findings):
        check_figures(check, dive, article)
        check_decompression(check, dive, article)
        check_html_plan(check, dive, article)
        check.same("html findings", sorted(findings), list(range(1, len(dive["findings"]) + 1)))
        for number, finding in enumerate(dive["findings"], 1):
            check_html_finding(check, number, finding, findings[number])
        for caution in dive["cautions"]:
            check.told("html caution", caution, article)


def check_log(check, plimsoll, schema, log):
    whole = run(plimsoll, "debrief", "--format", "json", log)
    document = json.loads(whole)
    jsonschema.validate(document, schema)
    jsonschema.validate(document, strict(copy.deepcopy(schema)))
    dives = json.loads(whole, parse_float=Number, parse_int=Number)["dives"]
    rows = list(csv.DictReader(io.StringIO(run(plimsoll, "debrief", "--format", "csv", log))))
    findings = list(csv.DictReader(io.StringIO(run(plimsoll, "debrief", "--findings", "csv", log))))
    text = " ".join(run(plimsoll, "debrief", log).split())
    check.same("rows", len(rows), len(dives))
    for dive, row in zip(dives, rows):
        check_csv(check, dive, row)
        check_findings_csv(check, dive, [one for one in findings if one["index"] == dive["dive"]["index"]])
        check_figures(check, dive, text)
        check_decompression(check, dive, text)
        check_findings(check, dive, text)
    check_html(check, plimsoll, log, dives)


def check_trace(check, plimsoll, log):
    rows = list(csv.DictReader(io.StringIO(run_trace(plimsoll, log))))
    lines = [json.loads(line, parse_float=Number, parse_int=Number)
             for line in run_trace(plimsoll, "--format", "jsonl", log).splitlines()]
    check.same("trace rows", len(rows), len(lines))
    for row, line in zip(rows, lines):
        check.same("trace row", row, {key: "inf" if value is None and row[key] == "inf" else cell(value) for key, value in line.items()})


def main(plimsoll, schema_path, logs):
    check = Check()
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    for log in logs:
        check_log(check, plimsoll, schema, log)
        check_trace(check, plimsoll, log)
    print(f"{len(logs)} logs, {check.count} looked at, {check.wrong} wrong")
    sys.exit(1 if check.wrong or not check.count else 0)


main(sys.argv[1], sys.argv[2], sys.argv[3:])
