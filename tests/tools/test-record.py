#!/usr/bin/env python3
# test-record.py: sitewardctl record, run as a program
# Copyright (C) 2026 The Siteward developers
# SPDX-License-Identifier: GPL-3.0-or-later

import json
import os
import sqlite3
import subprocess
import sys
import tempfile

TOOL = sys.argv[1]


def run(*arguments):
    done = subprocess.run([TOOL, 'record', *arguments], capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr


def run_json(*arguments):
    status, out, _ = run(*arguments, '--json')
    return status, json.loads(out)


def test_new(folder):
    live = os.path.join(folder, 'live')
    status, answer = run_json('new', live, '--first', 'Ines Marlow', '--zone', 'Europe/Lisbon')
    assert status == 0 and answer['zone'] == 'Europe/Lisbon' and answer['practice_only'] is False, answer
    status, answer = run_json('check', live)
    assert status == 0 and answer['sound'] and answer['acts'] == 1, answer
    status, answer = run_json('new', live, '--first', 'Ines Marlow')
    assert status == 4 and answer['error']['code'] == 'record', answer  # there is one already


def test_new_refuses(folder):
    there = os.path.join(folder, 'refused')
    status, answer = run_json('new', there)
    assert status == 2 and answer['error']['field'] == 'first', answer
    status, answer = run_json('new', there, '--first', 'X', '--zone', 'Nowhere/Here')
    assert status == 2, answer
    status, answer = run_json('new', there, '--first', 'X', '--at', '2026-05-14T09:00')
    assert status == 4, answer  # a live record has no set time
    status, answer = run_json('new', there, '--first', 'X', '--practice', '--at', 'noon')
    assert status == 2 and answer['error']['field'] == 'at', answer
    status, answer = run_json('new', there, '--first', 'X', '--practice', '--zone', 'UTC', '--at', '2026-05-14T09:00')
    assert status == 0 and answer['practice_only'] is True, answer


def test_demo(folder):
    digests = []
    for name in ('one', 'two'):
        status, answer = run_json('demo', os.path.join(folder, name), '--today', '2026-05-14', '--seed', '4')
        assert status == 0 and answer['at'] == '2026-05-14T09:40', answer
        digests.append(answer['digest'])
    assert digests[0] == digests[1], digests
    status, answer = run_json('check', os.path.join(folder, 'one'), '--digest', digests[0])
    assert status == 0 and answer['sound'] and answer['digest'] == digests[0], answer
    status, answer = run_json('demo', os.path.join(folder, 'three'), '--today', '2026-02-30')
    assert status == 2 and answer['error']['field'] == 'today', answer
    status, answer = run_json('demo', os.path.join(folder, 'three'), '--patients', '-1')
    assert status == 2, answer


def test_check_finds_what_was_changed(folder):
    where = os.path.join(folder, 'changed')
    status, answer = run_json('demo', where, '--today', '2026-05-14')
    assert status == 0, answer
    status, answer = run_json('check', where, '--digest', '0' * 64)
    assert status == 4 and answer['troubles'], answer
    record = sqlite3.connect(os.path.join(where, 'record.sqlite'))
    for (trigger,) in record.execute("SELECT name FROM sqlite_schema WHERE type='trigger' AND tbl_name='weight'").fetchall():
        record.execute(f'DROP TRIGGER "{trigger}"')
    record.execute('UPDATE weight SET grams = grams + 1000 WHERE id = (SELECT min (id) FROM weight)')
    record.commit()
    record.close()
    status, answer = run_json('check', where)
    assert status == 4 and not answer['sound'] and answer['troubles'], answer


def test_backup_and_restore(folder):
    where, copy, back = (os.path.join(folder, name) for name in ('source', 'copy', 'back'))
    assert run_json('demo', where, '--today', '2026-05-14')[0] == 0
    assert run_json('backup', where, copy)[0] == 0
    assert run_json('backup', where, copy)[0] == 4  # never over another
    assert run_json('restore', copy, back)[0] == 0
    digests = [run_json('check', each)[1]['digest'] for each in (where, copy, back)]
    assert len(set(digests)) == 1, digests
    assert run_json('restore', os.path.join(folder, 'nothing'), os.path.join(folder, 'else'))[0] == 4


def test_usage(folder):
    for arguments in ((), ('dance',), ('check',), ('backup', 'one'), ('check', 'one', 'two'), ('check', '--nonsense')):
        status, out, err = run(*arguments)
        assert status == 2 and err and not out, (arguments, status, out, err)
    status, out, err = run('check', os.path.join(folder, 'nothing'))
    assert status == 4 and err, err
    status, out, _ = run('check', '--help')
    assert status == 0 and '--digest' in out, out


tests = [value for name, value in sorted(globals().items()) if name.startswith('test_')]
failed = 0
print(f'1..{len(tests)}')
for number, test in enumerate(tests, 1):
    with tempfile.TemporaryDirectory(prefix='siteward-tool-') as folder:
        try:
            test(folder)
            print(f'ok {number} - {test.__name__}')
        except AssertionError as error:
            failed += 1
            print(f'not ok {number} - {test.__name__}: {error!r}')
sys.exit(1 if failed else 0)
