# test-figures.py: sitewardctl figures: published check values through the built command line, as TAP
#
# Copyright (C) 2026 The Siteward developers
# SPDX-License-Identifier: GPL-3.0-or-later
"""Run as: test-figures.py PATH-TO-SITEWARDCTL.

Each table of tests/tools/figures names its source; the expected figures are of the same source."""
import json
import os
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1]
TABLES = os.path.join(os.environ["SW_SOURCE_DIR"], "tests", "tools", "figures")


def run(*arguments):
    done = subprocess.run([PROGRAM, "figures", *arguments], capture_output=True, encoding="utf-8")
    return done.returncode, done.stdout, done.stderr


def figures(*arguments):
    status, out, err = run(*arguments, "--json")
    assert status == 0 and err == "", (status, out, err)
    return json.loads(out)


def table(name):
    return os.path.join(TABLES, name)


def near(value, wanted, digits):
    return abs(value - wanted) <= 0.5000001 * 10 ** -digits


def check_error(field, *arguments):
    status, out, err = run(*arguments, "--json")
    error = json.loads(out)["error"]
    assert status == 2 and err == "" and error["code"] == "input" and error["field"] == field, (status, out)
    return error["sentence"]


def with_table(text, check):
    with tempfile.NamedTemporaryFile("w", suffix=".csv", encoding="utf-8") as out:
        out.write(text)
        out.flush()
        return check(out.name)


def test_proportion():
    """Newcombe RG 1998 Stat Med 17:857-872 table I; 0/10 and 26/32: limits computed independently."""
    for x, n, limits in ((81, 263, (.2553, .3662, .2527, .3676)), (15, 148, (.0624, .1605, .0578, .1617)),
                         (0, 20, (0, .1611, 0, .1684)), (1, 29, (.0061, .1718, .0009, .1776)),
                         (26, 32, (.6469, .9111, .6356, .9279))):
        found = figures("proportion", str(x), str(n))
        assert list(found) == ["x", "n", "estimate", "wilson_lo", "wilson_hi", "exact_lo", "exact_hi"]
        assert found["x"] == x and found["n"] == n and found["estimate"] == x / n
        assert all(near(value, wanted, 4) for value, wanted in zip(list(found.values())[3:], limits)), found
    assert figures("proportion", "0", "0")["estimate"] is None


def test_survival():
    """Embury 1977: medians 31 and 23; log-rank chi2 3.396389, p 0.065339."""
    found = figures("survival", table("survival-aml.csv"))
    assert list(found) == ["groups", "logrank"] and found["logrank"]["df"] == 1
    assert near(found["logrank"]["chi2"], 3.396389, 6) and near(found["logrank"]["p"], 0.065339, 6)
    first, second = found["groups"]
    assert list(first) == ["group", "n", "events", "median", "median_lo", "median_hi", "steps"]
    assert list(first["steps"][0]) == ["t", "n", "d", "s", "se", "loglog_lo", "loglog_hi"]
    assert (first["group"], first["n"], first["median"]) == ("maintained", 11, 31)
    assert (second["group"], second["n"], second["median"]) == ("not maintained", 12, 23)


def test_survival_without_groups():
    """The same trial, both arms together: five steps of its printed table."""
    def check(path):
        found = figures("survival", path)
        steps = {step["t"]: step for step in found["groups"][0]["steps"]}
        assert len(found["groups"]) == 1 and found["groups"][0]["group"] is None
        assert found["logrank"] == {"chi2": None, "df": 0, "p": None}
        for t, n, d, s, se, lo, hi in ((5, 23, 2, .913043, .058753, .6949, .9775),
                                       (8, 21, 2, .826087, .079034, .6006, .9309),
                                       (9, 19, 1, .782609, .086006, .5542, .9032),
                                       (18, 14, 1, .645963, .101143, .4140, .8053),
                                       (23, 13, 2, .546584, .107251, .3193, .7264)):
            step = steps[t]
            assert (step["n"], step["d"]) == (n, d) and near(step["s"], s, 6) and near(step["se"], se, 6), step
            assert near(step["loglog_lo"], lo, 4) and near(step["loglog_hi"], hi, 4), step
    with open(table("survival-aml.csv"), encoding="utf-8") as lines:
        with_table("".join(line.rsplit(",", 1)[0] + "\n" for line in lines if not line.startswith("#")), check)


def test_interval():
    """Finkelstein & Wolfe 1985, radiotherapy arm, n 46; masses from memory, agreeing with an independent computation."""
    wanted = [(4, 5, .0463), (6, 7, .0334), (7, 8, .0887), (11, 12, .0708), (24, 25, .0926), (33, 34, .0818),
              (38, 40, .1209), (46, 48, .4656)]
    found = figures("interval", table("interval-cosmesis.csv"))
    assert list(found) == ["n", "masses", "loglik"] and found["n"] == 46 and found["loglik"] < 0
    assert [(one["left"], one["right"]) for one in found["masses"]] == [one[:2] for one in wanted], found
    assert all(near(one["mass"], mass, 4) for one, (_, _, mass) in zip(found["masses"], wanted))


def test_interval_not_yet():
    def check(path):
        found = figures("interval", path)
        assert found["masses"][-1]["right"] is None and found["masses"][-1]["mass"] == .5, found
    with_table("left,right\n0,7\n7,\n", check)


def test_competing():
    """A small case computed by hand: .634375 and .365625 at the end, .2125 and .2250 at 5, .353125 (cause 1) at 8."""
    found = figures("competing", table("competing.csv"))
    one, two = [{step["t"]: step["incidence"] for step in cause["steps"]} for cause in found["groups"][0]["causes"]]
    assert [cause["cause"] for cause in found["groups"][0]["causes"]] == [1, 2]
    assert near(one[11], .634375, 12) and near(two[11], .365625, 12)
    assert near(one[5], .2125, 12) and near(two[5], .2250, 12) and near(one[8], .353125, 12)


def test_agreement():
    """Bland and Altman 1986: mean -2.117647, SD 38.765130, limits -78.097302 and 73.862007."""
    found = figures("agreement", table("agreement-pefr.csv"))
    assert list(found) == ["n", "mean_difference", "sd", "lo", "hi", "tem", "tem_percent"] and found["n"] == 17
    assert near(found["mean_difference"], -2.117647, 6) and near(found["sd"], 38.765130, 6)
    assert near(found["lo"], -78.097302, 6) and near(found["hi"], 73.862007, 6)


def test_judges():
    """Shrout and Fleiss 1979: .17 .29 .71 .44 .62 .91."""
    wanted = {"1,1": .165742, "2,1": .289764, "3,1": .714841, "1,4": .442797, "2,4": .620051, "3,4": .909316}
    found = figures("judges", table("judges.csv"))
    assert list(found) == ["icc"] and list(found["icc"]) == list(wanted)
    assert all(near(found["icc"][form], value, 6) for form, value in wanted.items()), found


def test_cusum():
    """After Kestin 1995 (memory): limits by formula, and a short sequence."""
    found = figures("cusum", "0001001101", "--p0", ".10", "--p1", ".20")
    sums = [-.1452, -.2905, -.4357, .4190, .2738, .1285, .9833, 1.8380, 1.6928, 2.5476]
    assert near(found["s"], .14524, 5) and near(found["h0"], 2.70951, 5) and near(found["h1"], 2.70951, 5)
    assert all(near(value, wanted, 4) for value, wanted in zip(found["sums"], sums)) and len(found["sums"]) == 10
    assert found["first_worse"] is None
    found = figures("cusum", "1111", "--p0", ".10", "--p1", ".20", "--alpha", ".05", "--beta", ".2")
    assert near(found["h0"], 1.92143, 5) and near(found["h1"], 3.41902, 5) and found["first_worse"] == 4


def test_people_read_the_same():
    for arguments in (("proportion", "26", "32"), ("survival", table("survival-aml.csv")),
                      ("interval", table("interval-cosmesis.csv")), ("competing", table("competing.csv")),
                      ("agreement", table("agreement-pefr.csv")), ("judges", table("judges.csv")),
                      ("cusum", "01", "--p0", ".1", "--p1", ".2")):
        status, out, err = run(*arguments)
        assert status == 0 and err == "" and len(out.splitlines()) > 2, (arguments, out, err)
    assert "0.8125" in run("proportion", "26", "32")[1]


def test_errors():
    check_error("x", "proportion", "x", "10")
    check_error("n", "proportion", "1", "1e3")
    check_error("n", "proportion", "1", "10000000")
    assert "11" in check_error("n", "proportion", "11", "10")
    check_error("figures", "proportion", "1")
    check_error("figures")
    check_error("figures", "mode", "x.csv")
    check_error("table", "survival", "/no/such/table.csv")
    check_error("p0", "cusum", "01")
    check_error("p1", "cusum", "01", "--p0", ".1", "--p1", "much")
    check_error("sequence", "cusum", "012", "--p0", ".1", "--p1", ".2")
    check_error(None, "cusum", "01", "--p0", ".2", "--p1", ".1")
    for command, text, said in (("survival", "time,status\n1,2\n", "Line 2"), ("survival", "time\n1\n", "status"),
                                ("survival", "time,status\n-1,1\n", "-1"), ("interval", "left,right\n5,4\n", "5"),
                                ("interval", "left,right\n,4\n", "Line 2"), ("competing", "time,cause\n1,-1\n", "Line 2"),
                                ("agreement", "subject,a\n1,2\n", "b"), ("judges", "target,j1\n1,2\n2,3\n", "2")):
        sentence = with_table(text, lambda path: check_error("table", command, path))
        assert said.lower() in sentence.lower(), (command, text, sentence)


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
