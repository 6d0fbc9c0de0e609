"""test-rooms.py: what keeps the rooms apart, and the files readable

Copyright (C) 2026 The Siteward developers
SPDX-License-Identifier: GPL-3.0-or-later
"""
import os
import re

import tree

BELOW = {"base": ""}
BELOW["model"] = "base"
BELOW["documents"] = BELOW["stats"] = BELOW["store"] = BELOW["exchange"] = BELOW["render"] = "base model"
BELOW["rules"] = "base model documents"
BELOW["service"] = "base model documents rules stats store exchange"
BELOW["app"] = BELOW["tools"] = BELOW["service"] + " service render"

INCLUDE = r'^\s*#\s*include\s*["<]([^">]+)[">]'
C_FILES = tree.files(r"\.[ch]$", "src", "include")
HEADERS = {os.path.basename(f): f for f in tree.files(r"\.h$", "src", "include")}
MOST_LINES = 800
MOST_README_LINES = 40


def room(path):
    parts = path.split("/")
    return parts[2] if parts[0] == "include" else parts[1]


def parent_include(path, text):
    return tree.lines(path, tree.code(text, strings=True), INCLUDE, lambda m: not m.group(1).startswith("../"))


def foreign_private(path, text):
    """A private header is included from its own room only, and never by a public one."""
    def fine(match):
        name = match.group(1)
        if not name.endswith("-private.h"):
            return True
        home = HEADERS.get(os.path.basename(name))
        return home is not None and room(home) == room(path) and not path.startswith("include/")
    return tree.lines(path, tree.code(text, strings=True), INCLUDE, fine)


def room_above(path, text):
    def fine(match):
        home = HEADERS.get(os.path.basename(match.group(1)))
        return home is None or room(home) == room(path) or room(home) in BELOW[room(path)].split()
    return tree.lines(path, tree.code(text, strings=True), INCLUDE, fine)


def sql_elsewhere(path, text):
    if room(path) == "store":
        return []
    return tree.lines(path, tree.code(text, strings=True), INCLUDE, lambda m: "sqlite3" not in m.group(1))


def window_elsewhere(path, text):
    if room(path) == "app":
        return []
    return tree.lines(path, tree.code(text, strings=True), INCLUDE,
                      lambda m: not re.match(r"(gtk|gdk|gsk|graphene|gtk-unix-print)", m.group(1)))


def thread_elsewhere(path, text):
    if room(path) == "service":
        return []
    return tree.lines(path, tree.code(text),
                      r"\b(g_thread_(new|try_new|create)|g_thread_pool_\w+|g_task_run_in_thread\w*|pthread_create|thrd_create)\b")


def number_in_rules(path, text):
    if room(path) != "rules" or os.path.basename(path).startswith("sw-definitions."):
        return []
    return tree.lines(path, tree.code(text), r"(?<![\w.])\.?\d[\w.]*",
                      lambda m: re.fullmatch(r"[012](\.0)?[uUlLfF]*", m.group()) is not None)


def clock_in_rules(path, text):
    if room(path) != "rules":
        return []
    return tree.lines(path, tree.code(text), r"\b(g_date_time_new_now\w*|g_get_real_time|g_get_monotonic_time|time|localtime|setlocale|fopen|g_file_\w+)\s*\(")


def too_long(path, text):
    return [f"{path}: {text.count(chr(10))} lines"] if text.count("\n") > MOST_LINES else []


def readme_missing():
    faults = []
    for name in sorted(os.listdir(os.path.join(tree.TOP, "src"))):
        path = f"src/{name}/README.md"
        if not os.path.isdir(os.path.join(tree.TOP, "src", name)):
            continue
        if not os.path.exists(os.path.join(tree.TOP, path)):
            faults.append(f"{path} is missing")
        elif tree.read(path).count("\n") > MOST_README_LINES:
            faults.append(f"{path}: over {MOST_README_LINES} lines")
    return faults


def unknown_room():
    return sorted({f"{room(f)}: a room that tests/lint does not know" for f in C_FILES if room(f) not in BELOW})


def licence(path, text):
    head = text[:1500]
    return [] if "SPDX-License-Identifier: GPL-3.0-or-later" in head and "Copyright (C)" in head else [f"{path}: no licence line"]


def unfinished(path, text):
    return tree.lines(path, text, r"\b(TO" r"DO|FIX" r"ME|XX" r"X|HA" r"CK)\b")


CHECKS = {
    "no include from a parent folder": (parent_include, C_FILES),
    "no private header of another room": (foreign_private, C_FILES),
    "a room includes only what lies below it": (room_above, C_FILES),
    "no SQL library outside store": (sql_elsewhere, C_FILES),
    "no window library below app": (window_elsewhere, C_FILES),
    "no thread is started outside service": (thread_elsewhere, C_FILES),
    "rules: no number but 0, 1, 2 outside the definitions": (number_in_rules, C_FILES),
    "rules: no clock, locale or file": (clock_in_rules, C_FILES),
    "no file over 800 lines": (too_long, tree.files(r"\.(c|h|py|ui|sql|xml)$")),
    "each room has a README of at most 40 lines": (readme_missing, None),
    "each room is known": (unknown_room, None),
    "each C file names its licence": (licence, tree.files(r"\.[ch]$")),
    "nothing is marked as unfinished": (unfinished, tree.files(r"\.(c|h|py|ui|sql|xml|build|sh|md|txt)$")),
}

PLANTED = {
    "no include from a parent folder": [("src/base/sw-a.c", '#include "../model/sw-fact.h"\n')],
    "no private header of another room": [("src/service/sw-a.c", '#include "sw-db-private.h"\n'),
                                          ("include/siteward/store/sw-a.h", '#include "sw-db-private.h"\n')],
    "a room includes only what lies below it": [("src/rules/sw-a.c", '#include "sw-store.h"\n'),
                                                ("src/stats/sw-a.c", '#include "sw-case.h"\n')],
    "no SQL library outside store": [("src/service/sw-a.c", "#include <sqlite3.h>\n")],
    "no window library below app": [("src/render/sw-a.c", "#include <gtk/gtk.h>\n")],
    "no thread is started outside service": [("src/app/sw-a.c", "  g_task_run_in_thread (task, f);\n")],
    "rules: no number but 0, 1, 2 outside the definitions": [("src/rules/sw-a.c", "  return x > 28;\n"),
                                                             ("src/rules/sw-a.c", "  return x * 0.5;\n"),
                                                             ("src/rules/sw-a.c", "  return x < 0x10;\n")],
    "rules: no clock, locale or file": [("src/rules/sw-a.c", "  now = g_get_real_time ();\n")],
    "no file over 800 lines": [("src/base/sw-a.c", "\n" * 801)],
    "each C file names its licence": [("src/base/sw-a.c", "/* sw-a.c: a file */\n")],
    "nothing is marked as unfinished": [("src/base/sw-a.c", "/* TO" + "DO: later */\n")],
}

if __name__ == "__main__":
    tree.run(CHECKS, PLANTED)
