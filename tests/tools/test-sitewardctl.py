# test-sitewardctl.py: the built command line: keys, numbers, exit statuses and errors, as TAP
#
# Copyright (C) 2026 The Siteward developers
# SPDX-License-Identifier: GPL-3.0-or-later
"""Run as: test-sitewardctl.py PATH-TO-SITEWARDCTL.

Check values come from tests/rules/values, each file with its source."""
import csv
import json
import os
import subprocess
import sys
import tempfile
from decimal import Decimal

PROGRAM = sys.argv[1]
SOURCE = os.environ["SW_SOURCE_DIR"]
NOT_ADOPTED = "not adopted: for checking only"


def run(*arguments):
    """Exit status, standard output, standard error."""
    done = subprocess.run([PROGRAM, *arguments], capture_output=True, encoding="utf-8")
    return done.returncode, done.stdout, done.stderr


def run_json(*arguments):
    status, out, err = run(*arguments, "--json")
    assert err == "", err
    return status, json.loads(out, parse_float=Decimal)


def rows(name):
    with open(os.path.join(SOURCE, "tests", "rules", "values", name), encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def near(value, wanted):
    return abs(float(value) - float(wanted)) <= 1e-12 * abs(float(wanted))


def dose(protocol, weight, tumours, *more):
    arguments = ["dose", "--protocol", protocol, "--weight", weight]
    for tumour in tumours:
        arguments += ["--tumour", tumour]
    return run_json(*arguments, *more)


def check_dose_cell(row, protocol, cell):
    status, answer = dose(protocol, row["weight_kg"] + " kg", [axes + " cm" for axes in row["axes_cm"].split(";")])
    assert answer["note"] == NOT_ADOPTED
    for tumour, volume in zip(answer["tumours"], row["volume_cm3"].split(";")):
        assert near(tumour["volume_cm3"], volume), (row, tumour)
    if cell.startswith("refuse:"):
        wanted = [part.split(" ") for part in cell[len("refuse:"):].split(" + ")]
        assert status == 3, status
        assert [refusal["limit"] for refusal in answer["refusals"]] == [name for name, _ in wanted], answer["refusals"]
        for refusal, (name, most) in zip(answer["refusals"], wanted):
            assert near(refusal["most"], most) and refusal["value"] > refusal["most"], refusal
            assert refusal["unit"] == ("cm3" if name == "volume" else "mL")
            assert (refusal["tumour"] is not None) == (name == "volume")
        assert answer["total_ml"] is None and answer["vials"] is None
        assert all(tumour["drawn_ml"] is None for tumour in answer["tumours"])
    else:
        assert status == 0, (row, answer["refusals"])
        for tumour, wanted in zip(answer["tumours"], cell.split(";")):
            assert near(tumour["dose_ml"], wanted), (row, tumour)
        assert near(answer["total_ml"], sum(tumour["drawn_ml"] for tumour in answer["tumours"]))
        assert answer["refusals"] == []


def test_dose_rows():
    """Source: tests/rules/values/dose.csv (computed, exact arithmetic on the limits of domain 3.1)."""
    table = rows("dose.csv")
    assert len(table) == 16
    for row in table:
        check_dose_cell(row, "tigilanol-eu", row["eu"])
        check_dose_cell(row, "tigilanol-us", row["us"])


def test_dose_readings():
    status, answer = dose("tigilanol-eu", "24.6 kg", ["21.4x18.0x8.9; 21.0x17.6x9.1 mm"])
    tumour = answer["tumours"][0]
    assert status == 0 and tumour["mean_mm"] == [Decimal("21.2"), Decimal("17.8"), 9]
    # reading-interval.csv, first row
    assert abs(float(tumour["volume_lo_cm3"]) - 1.335722) < 1.4e-5
    assert abs(float(tumour["volume_hi_cm3"]) - 2.158842) < 2.2e-5
    assert tumour["drawn_ml"] == Decimal("0.85") and answer["vials"] == 1 and answer["left_ml"] == Decimal("1.15")
    assert answer["notes"] == []
    assert all(line["label"] and line["value"] for line in answer["why"])
    # A unit after the last reading holds for all of the tumour; times signs are read as x.
    _, again = dose("tigilanol-eu", "24.6", ["2.14×1.80×0.89; 2.10×1.76×0.91 cm"])
    assert again["tumours"] == answer["tumours"]


def test_dose_notes():
    status, answer = dose("tigilanol-eu", "20", ["5x5x5", "10x9x8; 13x9x8"])
    assert status == 0
    assert {note["code"] for note in answer["notes"]} == {"tiny-tumour", "one-reading", "axis-spread"}, answer["notes"]
    assert {note["severity"] for note in answer["notes"]} == {"vet decides", "note"}


def test_dose_tiers():
    """Domain 3.3: no ceiling is filled in; nothing is refused but an edge, and no vial is known."""
    status, answer = dose("ect-bleomycin-dog", "20 kg", ["10x9x5"])
    assert status == 0 and answer["tumours"][0]["drawn_ml"] == Decimal("0.42")
    assert answer["vials"] is None and answer["left_ml"] is None and answer["tumours"][0]["chance_over_limit"] is None


def check_error(status, code, field, *arguments):
    got, answer = run_json(*arguments)
    error = answer["error"]
    assert got == status and error["code"] == code and error["field"] == field, (arguments, got, answer)
    assert error["sentence"][0].isupper() or not error["sentence"][0].isalpha(), error
    plain, out, err = run(*arguments)
    assert plain == status and out == "" and err == "sitewardctl: " + error["sentence"] + "\n", (out, err)


def test_errors():
    usual = ["dose", "--protocol", "tigilanol-eu"]
    check_error(2, "input", "weight", *usual, "--weight", "0", "--tumour", "1x1x1")
    check_error(2, "input", "weight", *usual, "--tumour", "1x1x1")
    check_error(2, "input", "weight", *usual, "--weight", "24,6,1", "--tumour", "1x1x1")
    check_error(2, "input", "tumour", *usual, "--weight", "20")
    for bad in ["", ";", "1x1", "1x1x1x1", "1x1x0", "-1x1x1", "1x1x1 inch", "1e1x1x1", "nanx1x1", "1x1x1;",
                "301x1x1", "1 1 1"]:
        check_error(2, "input", "tumour", *usual, "--weight", "20", "--tumour", bad)
    check_error(2, "input", "protocol", "dose", "--protocol", "tigilanol", "--weight", "20", "--tumour", "1x1x1")
    check_error(2, "input", None, *usual, "--wieght", "20")
    check_error(2, "input", "command", "dosis")
    many = [part for _ in range(13) for part in ("--tumour", "1x1x1")]
    check_error(2, "input", "tumour", *usual, "--weight", "20", *many)
    check_error(2, "input", "tumour", *usual, "--weight", "20", "--tumour", ";".join(["9x9x9"] * 13))
    check_error(2, "input", "treat", "plan", "--protocol", "tigilanol-eu", "--weight", "20", "--treat", "2026-02-30")
    check_error(2, "input", "medicine", "plan", "--protocol", "tigilanol-eu", "--weight", "20", "--treat", "2026-02-20",
                "--medicine", "aspirin")
    check_error(2, "input", "medicine", "plan", "--protocol", "tigilanol-eu", "--weight", "20", "--treat", "2026-02-20",
                "--medicine", "famotidine", "--medicine", "omeprazole")
    check_error(2, "input", "file", "protocols", "check", "/no/such/file.xml")
    assert run()[0] == 2 and run("--help")[0] == 0 and run("dose", "--help")[0] == 0
    assert run("--version")[1].startswith("sitewardctl ")


def test_bytes_that_are_no_text():
    done = subprocess.run([PROGRAM.encode(), b"score", b"--longest", b"17;\xff", b"--json"], capture_output=True)
    assert done.returncode == 2 and json.loads(done.stdout)["error"]["field"] == "longest", done


def test_score_rows():
    """Source: tests/rules/values/response.csv (EORTC question pages; computed at the exact limits)."""
    table = rows("response.csv")
    assert len(table) == 11
    for row in table:
        status, answer = run_json("score", "--longest", row["series_mm"])
        assert status == 0 and answer["category"] == row["last_category"], (row, answer)
        assert answer["next"] and answer["why"] and answer["note"] == NOT_ADOPTED


def test_score_more():
    assert run_json("score", "--longest", "17,0 mm; 1.7 cm; -")[1]["category"] == "NE"
    assert run_json("score", "--longest", "20; 8 + 6")[1]["category"] == "PR"
    assert run_json("score", "--longest", "20; 8 + 6.01")[1]["category"] == "SD"
    for bad in ["17", "0; 5", "-; 5", "", "17; ", "17; x", "17; -3", "17; 8+", "17; 0.0"]:
        check_error(2, "input", "longest", "score", "--longest", bad)


def test_plan():
    """Counts and edges: last lines of tests/rules/values/medicines.csv. 26.2 kg."""
    status, answer = run_json("plan", "--protocol", "tigilanol-eu", "--weight", "26.2 kg", "--treat", "2026-03-02")
    doses = answer["doses"]
    groups = {}
    for one in doses:
        groups.setdefault(one["group"], []).append(one)
    counts = {name: len(some) for name, some in groups.items()}
    assert status == 0 and counts == {"corticosteroid": 17, "h1": 16, "h2": 16}, counts
    steroid = groups["corticosteroid"]
    assert (steroid[0]["day"], steroid[0]["date"], steroid[0]["time"]) == (-2, "2026-02-28", "08:00")
    last = [(one["day"], one["time"]) for one in steroid[13:]]
    assert last == [(4, "20:00"), (5, "08:00"), (6, "08:00"), (7, "08:00")]
    assert steroid[0]["medicine"] == "prednisolone" and steroid[0]["mg"] == Decimal("12.5")
    assert steroid[0]["tablets"] == [{"strength_mg": 25, "count": Decimal("0.5")}]
    assert [(row["medicine"], row["tablets"]) for row in answer["dispense"]][0] == ("prednisolone", 9)


def test_plan_that_does_not_fit():
    """No stocked strength for 3.5 kg: exit 3, and the sentence names what fits instead."""
    status, answer = run_json("plan", "--protocol", "tigilanol-eu", "--weight", "3.5 kg", "--treat", "2026-03-02")
    assert status == 3 and answer["doses"] == []
    assert {refusal["code"] for refusal in answer["refusals"]} == {"no-tablet-fits"}
    # 5.2 kg: 12.5 mg and more of diphenhydramine would do, a whole capsule of 25 mg is over; chlorphenamine 2 mg fits.
    status, answer = run_json("plan", "--protocol", "tigilanol-eu", "--weight", "5.2", "--treat", "2026-03-02")
    assert status == 3 and "chlorphenamine" in answer["refusals"][0]["next"], answer["refusals"]
    status, answer = run_json("plan", "--protocol", "tigilanol-eu", "--weight", "5.2", "--treat", "2026-03-02",
                              "--medicine", "chlorphenamine", "--medicine", "omeprazole")
    assert {one["medicine"] for one in answer["doses"] if one["group"] == "h1"} <= {"chlorphenamine"}


def test_protocols():
    status, answer = run_json("protocols")
    assert status == 0
    assert {one["id"]: one["adoptable"] for one in answer} == {"tigilanol-eu": True, "tigilanol-us": True,
                                                               "ect-bleomycin-dog": False, "ect-cisplatin-dog": False}
    assert all(set(one) >= {"id", "revision", "title", "adoptable"} for one in answer)
    status, out, _ = run("protocols")
    assert status == 0 and len(out.splitlines()) == 4


def test_protocols_check():
    good = os.path.join(SOURCE, "data", "protocols", "tigilanol-eu.xml")
    status, answer = run_json("protocols", "check", good)
    assert status == 0 and answer["id"] == "tigilanol-eu" and answer["adoptable"] is True
    with open(good, encoding="utf-8") as source:
        text = source.read()
    with tempfile.TemporaryDirectory() as folder:
        bad = os.path.join(folder, "bad.xml")
        with open(bad, "w", encoding="utf-8") as out:
            out.write(text.replace('name="least-dose" value="0.1 mL"', 'name="least-dose" value="5 mL"'))
        line = next(i for i, one in enumerate(text.splitlines(), 1) if "most-per-treatment" in one)
        status, answer = run_json("protocols", "check", bad)
        assert status == 2 and answer["error"]["code"] == "document", answer
        assert answer["error"]["sentence"].startswith(f"{bad}:{line}:"), answer
        assert run("protocols", "check", bad)[2].startswith(f"sitewardctl: {bad}:{line}:")
    check_error(2, "document", "file", "protocols", "check", os.path.join(SOURCE, "README.md"))


def main():
    tests = [(name, test) for name, test in globals().items() if name.startswith("test_")]
    failed = 0
    print(f"1..{len(tests)}")
    for number, (name, test) in enumerate(tests, 1):
        try:
            test()
            print(f"ok {number} {name}")
        except Exception as error:  # told as a failed test, and the next one runs
            failed += 1
            print(f"not ok {number} {name}: {type(error).__name__} {str(error)[:2000]!r}")
    return 1 if failed else 0


sys.exit(main())
