"""test-data.py: documents, schema and templates are whole before any program reads them

Copyright (C) 2026 The Siteward developers
SPDX-License-Identifier: GPL-3.0-or-later
"""
import os
import re
import sqlite3
import xml.etree.ElementTree as ElementTree

import tree

DOCUMENTS = tree.files(r"\.xml$", "data/protocols", "data/medicines", "data/interactions")
UI_FILES = tree.files(r"\.ui$", "ui")
MARKS = {"seen", "second-hand", "practice", "memory", "ours"}
KINDS = {"protocols": "protocol", "medicines": "medicine", "interactions": "interactions"}


def document(path, text):
    """Named after its file, with a revision; each figure marked; each source named by someone, each name listed."""
    root = ElementTree.fromstring(text)
    stem = os.path.basename(path)[:-4]
    sources = [s.get("id") for s in root.iter("source")]
    figures = list(root.iter("figure"))
    used = {f.get("source") for f in figures} - {None, "not-recorded"}
    faults = []
    if root.tag != KINDS.get(path.split("/")[1]) or root.get("id") != stem or not (root.get("revision") or "").isdigit():
        faults.append(f"{path}: <{root.tag} id={root.get('id')} revision={root.get('revision')}>")
    faults += [f"{path}: source {s} is listed twice" for s in sorted({s for s in sources if sources.count(s) > 1})]
    faults += [f"{path}: source {s} is not listed" for s in sorted(used - set(sources))]
    faults += [f"{path}: no figure is from source {s}" for s in sorted(set(sources) - used)]
    faults += [f"{path}: {f.get('name')} has mark {f.get('mark')}" for f in figures if f.get("mark") not in MARKS]
    faults += [f"{path}: {f.get('name')} is marked as seen and names no source" for f in figures
               if f.get("mark") == "seen" and f.get("source") in (None, "not-recorded")]
    return faults if figures else faults + [f"{path}: no figure"]


def listed(resource):
    return re.findall(r"<file[^>]*>([^<]+)</file>", tree.read(resource))


def resources():
    """What a resource lists is there, and what is there is listed."""
    faults = []
    for resource, pattern in (("data/schema/schema.gresource.xml", r"\.sql$"), ("ui/siteward.gresource.xml", r"\.(ui|css)$")):
        home = os.path.dirname(resource)
        there = {os.path.relpath(f, home) for f in tree.files(pattern, home)}
        faults += [f"{resource}: {f} differs from what lies in {home}" for f in sorted(there ^ set(listed(resource)))]
    return faults


def schema():
    """The steps run in their order, and every table is strict, so that no column takes what it was not made for."""
    base = sqlite3.connect(":memory:")
    faults = []
    for name in listed("data/schema/schema.gresource.xml"):
        try:
            base.executescript(tree.read("data/schema/" + name))
        except sqlite3.Error as error:
            faults.append(f"data/schema/{name}: {error}")
    tables = base.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table'"
                          " AND name NOT LIKE 'sqlite_%'").fetchall()
    faults += [f"table {name} is not STRICT" for name, strict in tables if not strict]
    return faults if tables else faults + ["no table"]


def sources_of(stem):
    """The widget's file and those that its folder split off: sw-a-page.c, sw-a-page-parts.c."""
    return tree.files(rf"/{stem}(-[\w-]+)?\.c$", "src/app")


def bound(text, function):
    """What a class binds: the last argument of each call, by name."""
    return set(re.findall(function + r"\s*\([^;]*?,\s*(\w+)\)\s*;", text))


def template(path, text):
    """One template a file, of the class the file is named after; what the class binds is there, and signals find their handlers."""
    root = ElementTree.fromstring(text)
    stem = os.path.basename(path)[:-3]
    classes = [t.get("class") for t in root.iter("template")]
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    if classes == []:
        return []
    if [c.lower() for c in classes] != [stem.replace("-", "")]:
        return [f"{path}: templates {classes}"]
    if not sources_of(stem):
        return [f"{path}: no {stem}.c"]
    c = "\n".join(tree.code(tree.read(f), strings=True) for f in sources_of(stem))
    children = bound(c, "gtk_widget_class_bind_template_child(?:_private)?")
    handlers = {s.get("handler") for s in root.iter("signal")}
    faults = [f"{path}: id {i} stands twice" for i in sorted({i for i in ids if ids.count(i) > 1})]
    if "gtk_widget_class_bind_template_child_full" not in c:
        faults += [f"{path}: {child} is bound in C and has no id here" for child in sorted(children - set(ids))]
    return faults + [f"{path}: handler {h} is not in C" for h in sorted(handlers) if not re.search(rf"\b{h}\b", c)]


CHECKS = {
    "documents: names, sources and marks": (document, DOCUMENTS),
    "resources list what is there": (resources, None),
    "the schema's steps run, all tables strict": (schema, None),
    "templates fit their classes": (template, UI_FILES),
}
GOOD = '<medicine id="a" revision="1"><sources><source id="s"/></sources><figure name="f" mark="{}" source="{}"/></medicine>'
PLANTED = {
    "documents: names, sources and marks": [("data/medicines/b.xml", GOOD.format("seen", "s")),
                                            ("data/medicines/a.xml", GOOD.format("sure", "s")),
                                            ("data/medicines/a.xml", GOOD.format("seen", "t"))],
    "templates fit their classes": [("ui/sw-window.ui", '<interface><template class="SwWindow"/></interface>'),
                                    ("ui/sw-window.ui", '<interface><template class="SwOther"/></interface>')],
}

if __name__ == "__main__":
    assert not document("data/medicines/a.xml", GOOD.format("seen", "s"))
    tree.run(CHECKS, PLANTED)
