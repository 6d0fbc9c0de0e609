-- 0001-record.sql: what founds a record, and its journal
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later

-- one row, written when the record is made and never changed; the first digest of the journal covers it
CREATE TABLE founding (
  id INTEGER PRIMARY KEY CHECK (id = 1),                               -- one row only
  record TEXT NOT NULL CHECK (length (record) = 32),                   -- the record's 128-bit id, hexadecimal
  practice_only INTEGER NOT NULL CHECK (practice_only IN (0, 1))       -- 1: for trying out, scripted clock allowed
) STRICT;

-- the journal: one line for each act. References wait for the commit: an act may make its own person and patient.
CREATE TABLE act (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- number of the line, without gaps
  kind TEXT NOT NULL CHECK (kind <> ''),                               -- code of the kind of act, sw-act.h
  -- who did it
  person INTEGER NOT NULL REFERENCES person DEFERRABLE INITIALLY DEFERRED,
  roles INTEGER NOT NULL CHECK (roles >= 0),                           -- SwRole bits of the person at that time
  -- about which dog; NULL: none
  patient INTEGER REFERENCES patient DEFERRABLE INITIALLY DEFERRED,
  at_us INTEGER NOT NULL,                                              -- when, UTC microseconds
  -- local minus UTC then
  offset_minutes INTEGER NOT NULL CHECK (offset_minutes BETWEEN -1080 AND 1080),
  batch INTEGER CHECK (batch > 0),                                     -- acts of one transaction; NULL: alone
  digest BLOB NOT NULL CHECK (length (digest) = 32),                   -- SHA-256 of digest before, header, payload
  -- canonical text of every row the act wrote, with the schema version; last, so that reading a head skips its pages
  payload TEXT NOT NULL
) STRICT;

CREATE INDEX act_patient ON act (patient) WHERE patient IS NOT NULL;
