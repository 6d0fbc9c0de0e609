"""test-words.py: every visible string is marked, listed and in the template; no medicine's brand or maker is named

`ninja -C build siteward-pot` writes po/siteward.pot anew. The template is read and the strings are collected here a second time,
without gettext's own tools.

Copyright (C) 2026 The Siteward developers
SPDX-License-Identifier: GPL-3.0-or-later
"""
import ast
import hashlib
import os
import re
import sys
import xml.etree.ElementTree as ElementTree

import tree

C_FILES = tree.files(r"\.[ch]$", "src", "include")
UI_FILES = tree.files(r"\.ui$", "ui")
ROUTES = [f for f in tree.read("po/POTFILES.in").split("\n") if f and not f.startswith("#")]

LITERAL = r'"(?:\\.|[^"\\])*"'
STRINGS = rf"\s*((?:(?:{LITERAL}|PRI[diux]64)\s*)+)"
MARKS = [(r"\b(?:_|N_|gettext)\s*\(" + STRINGS, False),
         (r"\b(?:ngettext\s*\(|g_dngettext\s*\(\s*\w+\s*,)" + STRINGS + "," + STRINGS, False),
         (r"\b(?:C_|NC_)\s*\(" + STRINGS + "," + STRINGS, True)]
NAMES = ("Siteward", "UTC")  # the same in every language
SHOWN = {"label", "title", "subtitle", "tooltip-text", "placeholder-text"}

# The first 16 digits of SHA-256 of names that must not stand here, lower case: so that this list doesn't name them either.
BANNED = {"25e5c40b1c3c6c8d", "d1fe3a12e23a68ad", "fa664e9b2b77c9af"}


def joined(literals):
    """Adjacent C string literals as one string; gettext writes PRId64 as <PRId64>."""
    return "".join(ast.literal_eval(s) if s[0] == '"' else f"<{s}>" for s in re.findall(LITERAL + "|PRI[diux]64", literals))


def marked_in_c(text):
    """(context, string) of everything marked for translation."""
    clean = tree.code(text, strings=True)
    found = set()
    for pattern, with_context in MARKS:
        for match in re.finditer(pattern, clean):
            words = [joined(g) for g in match.groups()]
            found.add((words[0], words[1]) if with_context else ("", words[0]))
    return found


def marked_in_ui(text):
    return {(e.get("context", ""), e.text) for e in ElementTree.fromstring(text).iter() if e.get("translatable") in ("yes", "true", "1")}


def marked_for_desktop(text):
    found = re.findall(r"^(?:Name|GenericName|Comment|Keywords)=(.+)$|<(?:name|summary|p|caption)>\s*([^<]+?)\s*<", text, re.M)
    return {("", entry or element) for entry, element in found}


def marked(path, text):
    if path.endswith(".in"):
        return marked_for_desktop(text)
    return marked_in_ui(text) if path.endswith(".ui") else marked_in_c(text)


def not_listed(path, text):
    return [f"{path}: has visible strings and is not in po/POTFILES.in"] if marked(path, text) and path not in ROUTES else []


def listed_in_vain():
    faults = [f"po/POTFILES.in: {f} is listed twice" for f in sorted({f for f in ROUTES if ROUTES.count(f) > 1})]
    for path in ROUTES:
        if not os.path.exists(os.path.join(tree.TOP, path)):
            faults.append(f"po/POTFILES.in: {path} is gone")
        elif path.endswith((".c", ".ui")) and not marked(path, tree.read(path)):
            faults.append(f"po/POTFILES.in: {path} has no visible string")
    return faults


def broken_off(path, text):
    """gettext sees only the first part of a string that a GLib macro interrupts; PRId64 (inttypes.h) it knows."""
    return tree.lines(path, tree.code(text, strings=True), r"\b(_|N_|C_|NC_|n?gettext|g_dngettext)\s*\([^();]*\bG_G\w+_FORMAT\b")


def unmarked_in_ui(path, text):
    """Words shown by a template that nobody can translate; the program's own name stays as it is."""
    return [f"{path}: {e.get('name')} \"{e.text}\"" for e in ElementTree.fromstring(text).iter("property")
            if e.get("name") in SHOWN and e.get("translatable") not in ("yes", "true", "1")
            and e.get("bind-source") is None and re.search(r"[^\W\d_]{2}", e.text or "") and e.text not in NAMES]


def unmarked_in_c(path, text):
    """A literal handed to a function that shows it."""
    if not path.startswith("src/app/"):
        return []
    return tree.lines(path, tree.code(text, strings=True),
                      r"\bgtk_(label_new|button_new_with_label|check_button_new_with_label|\w+_set_(label|text|title|tooltip_text|"
                      r"placeholder_text))\s*\((?:[^();]|\([^()]*\))*?,?\s*\"([^\"]*[A-Za-z]{2}[^\"]*)\"\s*\)",
                      lambda m: m.group(3) in NAMES)


def template():
    """(context, string) of all entries of po/siteward.pot that come from C or a widget's template."""
    found = set()
    for entry in tree.read("po/siteward.pot").split("\n\n"):
        if not re.search(r"^#: .*\.([ch]|ui)\b", entry, re.M):
            continue
        words = {k: joined(v) for k, v in re.findall(r'^(msgctxt|msgid)\s+((?:".*"\n?)+)', entry, re.M)}
        if words.get("msgid"):
            found.add((words.get("msgctxt", ""), words["msgid"]))
    return found


def template_differs():
    wanted = {w: p for p in C_FILES + UI_FILES for w in marked(p, tree.read(p))}
    kept = template()
    return ([f"{wanted[w]}: not in po/siteward.pot: {w[1]!r}" for w in sorted(wanted.keys() - kept)]
            + [f"po/siteward.pot: no file has {w[1]!r} any more" for w in sorted(kept - wanted.keys())]
            + ([] if wanted else ["no visible string was found at all"]))


def brand(path, text):
    return [f"{path}: names a brand or maker" for word in sorted(set(re.findall(r"[a-z]{5,12}", text.lower())))
            if hashlib.sha256(word.encode()).hexdigest()[:16] in BANNED]


TEXTS = tree.files(r"\.(c|h|py|ui|css|sql|xml|build|sh|md|txt|csv|pot|po|in|R)$|/run$") + ["README.md", "DEVELOPERS.md", "meson.build"]
CHECKS = {
    "each file with visible strings is in po/POTFILES.in": (not_listed, C_FILES + UI_FILES),
    "po/POTFILES.in lists nothing in vain": (listed_in_vain, None),
    "templates: visible words are marked": (unmarked_in_ui, UI_FILES),
    "window: visible words are marked": (unmarked_in_c, C_FILES),
    "no marked string is interrupted by a macro": (broken_off, C_FILES),
    "no brand or maker": (brand, TEXTS),
}
PLANTED = {
    "each file with visible strings is in po/POTFILES.in": [("src/app/sw-a.c", 'x = _("Words");'), ("ui/sw-a.ui",
        '<interface><property name="label" translatable="yes">Words</property></interface>')],
    "no marked string is interrupted by a macro": [("src/app/sw-a.c", '_("day %" G_GINT64_FORMAT)')],
    "templates: visible words are marked": [("ui/sw-a.ui", '<interface><property name="label">Words</property></interface>')],
    "window: visible words are marked": [("src/app/sw-a.c", 'gtk_label_new ("Words")'),
                                         ("src/app/sw-a.c", 'gtk_label_set_text (GTK_LABEL (a), "Words")')],
}
TEMPLATE_CHECKS = {"po/siteward.pot holds exactly the marked strings": (template_differs, None)}

if __name__ == "__main__":
    if "template" in sys.argv[1:]:
        tree.run(TEMPLATE_CHECKS, {})
    else:
        tree.run(CHECKS, PLANTED)
