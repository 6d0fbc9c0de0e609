"""tree.py: the files of the project and the words of a C file, for the checks beside it.

Copyright (C) 2026 The Siteward developers
SPDX-License-Identifier: GPL-3.0-or-later
"""
import functools
import os
import re
import sys

TOP = os.environ["SW_SOURCE_DIR"]
HOMES = ("src", "include", "tests", "ui", "data", "po")

# A comment, a string, a character, or what lies between.
PIECE = re.compile(r"""/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*'|[^/"']+|.""", re.S)


def files(pattern, *homes):
    """Paths below the project, sorted, that match a regular expression."""
    found = []
    for home in homes or HOMES:
        for folder, folders, names in os.walk(os.path.join(TOP, home)):
            folders[:] = [f for f in folders if f != "__pycache__"]
            found += [os.path.relpath(os.path.join(folder, n), TOP) for n in names]
    return sorted(f for f in found if re.search(pattern, f))


@functools.lru_cache(maxsize=None)
def read(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read()


@functools.lru_cache(maxsize=None)
def code(text, strings=False):
    """C without comments and characters, and without what its strings say unless that is asked for. Lines stay where they are."""
    def blank(match):
        piece = match.group()
        if piece.startswith(("/*", "//")):
            return "\n" * piece.count("\n") or " "
        if len(piece) > 1 and (piece[0] == "'" or (piece[0] == '"' and not strings)):
            return piece[0] * 2 + "\n" * piece.count("\n")
        return piece
    return PIECE.sub(blank, text)


def lines(path, text, pattern, allowed=lambda match: False):
    """path:line: what matched, for each match that isn't allowed."""
    return [f"{path}:{text.count(chr(10), 0, m.start()) + 1}: {m.group().strip()}"
            for m in re.finditer(pattern, text, re.M) if not allowed(m)]


def run(checks, planted):
    """Each check over the project finds nothing; each finds what is planted for it. checks: name -> function(path, text) or
    function(); planted: name -> list of arguments."""
    number = failed = 0
    print(f"1..{len(checks) + len(planted)}")
    for name, (check, paths) in checks.items():
        number += 1
        faults = check() if paths is None else [f for p in paths for f in check(p, read(p))]
        failed += bool(faults)
        print(f"{'not ok' if faults else 'ok'} {number} {name}")
        for fault in faults:
            print(f"# {fault}")
    for name, arguments in planted.items():
        number += 1
        found = all(checks[name][0](*a) for a in arguments)
        failed += not found
        print(f"{'ok' if found else 'not ok'} {number} {name}: finds what is planted")
    sys.exit(1 if failed else 0)
