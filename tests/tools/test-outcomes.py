# test-outcomes.py: sitewardctl outcomes on the demo: figures recomputed from the tumours' own table, as TAP
#
# Copyright (C) 2026 The Siteward developers
# SPDX-License-Identifier: GPL-3.0-or-later
"""Run as: test-outcomes.py PATH-TO-SITEWARDCTL."""
import csv
import json
import os
import shutil
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1]
FOLDER = tempfile.TemporaryDirectory()
DEMO = os.path.join(FOLDER.name, "demo")
AT = ["--at", "2026-11-25T09:40"]
COMPLETE, NOT_EVALUABLE = "0", "4"


def run(*arguments):
    done = subprocess.run([PROGRAM, *arguments], capture_output=True, encoding="utf-8")
    return done.returncode, done.stdout, done.stderr


def outcomes(*arguments):
    status, out, err = run("outcomes", DEMO, *AT, *arguments, "--json")
    assert status == 0 and err == "", (status, out, err)
    return {section["section"]: section for section in json.loads(out)["sections"]}


def group(sections, section, code):
    return next(one for one in sections[section]["groups"] if one["group"] == code)


def figure(sections, section, code, name):
    return next(one for one in group(sections, section, code)["figures"] if one["figure"] == name)


def rows(path):
    with open(path, encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def tables(*arguments):
    path = os.path.join(FOLDER.name, "figures.csv")
    sections = outcomes("--csv", path, *arguments)
    stem = path[:-len(".csv")]
    return sections, rows(path), rows(stem + "-curves.csv"), rows(stem + "-tumours.csv")


def value(cell):
    return float(cell) if cell != "" else None


def test_table_and_json_say_the_same():
    for by in ("none", "grade", "site", "depth", "size", "weight", "agent", "operator", "repeat"):
        sections, figures, _, _ = tables("--by", by)
        told = [(section["section"], part["group"] if part else "", one) for section in sections.values()
                for part in section["groups"] + [None] for one in (part["figures"] if part else section["tests"])]
        assert len(told) == len(figures), (by, len(told), len(figures))
        for (section, part, one), row in zip(told, figures):
            assert (section, part, one["figure"]) == (row["section"], row["group"], row["figure"])
            for key in ("x", "n", "value", "value_to", "lo", "hi", "exact_lo", "exact_hi"):
                assert one[key] == value(row[key]), (by, section, one, row)


def test_people_read_the_same():
    sections = outcomes("--by", "grade")
    text = run("outcomes", DEMO, *AT, "--by", "grade")[1]
    for section in sections.values():
        assert section["title"] in text
        for part in section["groups"] if section["empty"] is None else []:
            for one in part["figures"]:
                assert one["label"] in text
                if one["x"] is not None and one["value"] is not None:
                    assert f"{one['label']}: {one['x']} of {one['n']}: {100 * one['value']:.1f} %" in text, one


def scored(row):
    return row["category"] not in ("", NOT_EVALUABLE) or (row["end_cause"] == "1" and row["category"] == "")


def test_complete_response_recomputed():
    sections, _, _, tumours = tables("--by", "grade")
    first = [row for row in tumours if row["injection"] == "1"]
    for code, chosen in [("all", first)] + [(grade, [row for row in first if row["grade"] == grade])
                                            for grade in {row["grade"] for row in first}]:
        told = figure(sections, "complete", code, "of-scored")
        x = sum(row["category"] == COMPLETE for row in chosen)
        assert (told["x"], told["n"]) == (x, sum(map(scored, chosen))), (code, told)
        again = json.loads(run("figures", "proportion", str(told["x"]), str(told["n"]), "--json")[1])
        assert (told["lo"], told["hi"]) == (again["wilson_lo"], again["wilson_hi"])
        assert (told["exact_lo"], told["exact_hi"]) == (again["exact_lo"], again["exact_hi"])


def figures_of(command, header, lines):
    with tempfile.NamedTemporaryFile("w", suffix=".csv", encoding="utf-8") as out:
        out.write("\n".join([header] + lines) + "\n")
        out.flush()
        return json.loads(run("figures", command, out.name, "--json")[1])


def test_recurrence_recomputed():
    """What architecture.md promises: anyone can recompute an export."""
    sections, _, curves, tumours = tables()
    lines = []
    for row in tumours:
        if row["clear_day"]:
            came = row["recurrence_day"] != ""
            lines.append(f"{int(row['recurrence_day'] if came else row['last_clear_day']) - int(row['clear_day'])},{int(came)}")
    again = figures_of("survival", "time,status", lines)["groups"][0]
    median = figure(sections, "recurrence", "all", "median")
    assert (median["n"], median["value"], median["lo"]) == (again["n"], again["median"], again["median_lo"])
    steps = [(value(row["x"]), value(row["y"])) for row in curves if row["chart"] == "recurrence" and row["what"] == "point"]
    assert steps[1:] == [(step["t"], step["s"]) for step in again["steps"]] and len(steps) > 1


def test_healing_recomputed():
    sections, _, curves, tumours = tables()
    lines = []
    for row in tumours:
        if row["wound_looks"] != "0":
            left = int(row["wound_open_day"]) - int(row["day"]) if row["wound_open_day"] else 0
            lines.append(f"{left},{int(row['wound_closed_day']) - int(row['day']) if row['wound_closed_day'] else ''}")
    again = figures_of("interval", "left,right", lines)
    assert figure(sections, "healing", "all", "closed-28")["n"] == again["n"] == len(lines)
    steps = [(value(row["x"]), value(row["x_to"])) for row in curves if row["chart"] == "healing" and row["what"] == "point"]
    assert steps[1:] == [(mass["left"], mass["right"]) for mass in again["masses"] if mass["right"] is not None]


def test_report_says_the_same():
    """Numbers in the PDF's text, where pdftotext (poppler-utils) is installed; else that it is a PDF at all."""
    path = os.path.join(FOLDER.name, "report.pdf")
    sections = outcomes("--by", "site", "--pdf", path)
    with open(path, "rb") as report:
        assert report.read(5) == b"%PDF-"
    if shutil.which("pdftotext") is None:
        return
    text = " ".join(subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, encoding="utf-8").stdout.split())
    assert "only" in text and "invented" in text
    for section in sections.values():
        for part in section["groups"] if section["empty"] is None else []:
            for one in part["figures"]:
                if one["exact_lo"] is not None:
                    assert f"{one['x']} of {one['n']}: {100 * one['value']:.1f} % ({100 * one['lo']:.1f} to" in text, one
                    assert f"{100 * one['exact_lo']:.1f} to {100 * one['exact_hi']:.1f} %" in text, one


def test_filters_and_period():
    _, _, _, tumours = tables()
    second = outcomes("--only", "repeat=second")
    assert figure(second, "complete", "all", "of-scored")["n"] == sum(row["injection"] == "2" for row in tumours)
    days = sorted(row["treated_on"] for row in tumours)
    some = outcomes("--from", days[3], "--to", days[6])
    assert figure(some, "drug", "all", "given")["n"] == sum(days[3] <= day <= days[6] for day in days)


def test_published():
    tests = outcomes("--published", "Jones 2021")["complete"]["tests"]
    assert [one["figure"] for one in tests] == ["published-binomial", "published-fisher"] and "85 of 116" in tests[0]["label"]
    assert outcomes("--published", "none")["complete"]["tests"] == []


def check_error(status, field, *arguments):
    got, out, _ = run("outcomes", *arguments, "--json")
    assert got == status and json.loads(out)["error"]["field"] == field, (arguments, got, out)


def test_errors():
    check_error(2, "by", DEMO, "--by", "colour")
    check_error(2, "only", DEMO, "--only", "grade")
    check_error(2, "only", DEMO, "--only", "colour=red")
    check_error(2, "from", DEMO, "--from", "yesterday")
    check_error(2, "rates", DEMO, "--rates", "some")
    check_error(2, "published", DEMO, "--published", "somebody")
    check_error(2, "DIR")
    check_error(4, "DIR", os.path.join(FOLDER.name, "nothing"))
    check_error(2, "at", DEMO, "--at", "now")


def main():
    tests = [(name, test) for name, test in globals().items() if name.startswith("test_")]
    status, _, err = run("record", "demo", DEMO, "--today", "2026-11-25")
    failed = 0
    print(f"1..{len(tests)}")
    for number, (name, test) in enumerate(tests, 1):
        try:
            assert status == 0, err
            test()
            print(f"ok {number} {name}")
        except Exception as error:  # told as a failed test, and the next one runs
            failed += 1
            print(f"not ok {number} {name}: {type(error).__name__} {str(error)[:2000]!r}")
    FOLDER.cleanup()
    return 1 if failed else 0


sys.exit(main())
