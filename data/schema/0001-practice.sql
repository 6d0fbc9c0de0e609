-- 0001-practice.sql: people, settings, documents, clients
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- Columns are those of the descriptors in src/model/sw-fact-types.c; a test holds both together. Units: lengths 0.01
-- mm, masses g, medicines ug, volumes nL; SwDay: days since 1970-01-01. Enumerations (sw-values.h) have only a
-- floor: a member may be added there without a schema step, and model refuses unknown ones. Indexes, views
-- <table>_now and triggers of all fact tables: sw-guard.c.

-- somebody who works here
CREATE TABLE person (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act                                  -- the act that wrote it
) STRICT;

-- name and roles of a person
CREATE TABLE person_details (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  replaces INTEGER UNIQUE REFERENCES person_details,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  person INTEGER NOT NULL REFERENCES person,                           -- the person
  name TEXT NOT NULL CHECK (name <> ''),                               -- as people write it
  roles INTEGER NOT NULL CHECK (roles >= 0),                           -- SwRole bits
  active INTEGER NOT NULL CHECK (active IN (0, 1))                     -- 1 while the person works here
) STRICT;

-- one clinical or practice setting; keys in sw-practice.h
CREATE TABLE setting (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  replaces INTEGER UNIQUE REFERENCES setting,                          -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  key TEXT NOT NULL CHECK (key <> ''),                                 -- its name, sw-dossier.h
  value TEXT NOT NULL                                                  -- its value
) STRICT;

-- the exact bytes of a document, copied in at adoption
CREATE TABLE document (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  doc_kind INTEGER NOT NULL CHECK (doc_kind >= 0),                     -- SwDocumentKind
  doc_id TEXT NOT NULL CHECK (doc_id <> ''),                           -- e.g. tigilanol-eu, prednisolone
  revision TEXT NOT NULL CHECK (revision <> ''),                       -- as the document says
  digest TEXT NOT NULL CHECK (length (digest) = 64),                   -- SHA-256 of bytes, hex
  bytes BLOB NOT NULL                                                  -- as they were
) STRICT;

-- a vet took a document into use; withdrawn = no longer used for new courses
CREATE TABLE adoption (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  replaces INTEGER UNIQUE REFERENCES adoption,                         -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  document INTEGER NOT NULL REFERENCES document,                       -- the document row
  doc_kind INTEGER NOT NULL CHECK (doc_kind >= 0),                     -- SwDocumentKind
  doc_id TEXT NOT NULL CHECK (doc_id <> ''),                           -- of the document
  -- names of the figures confirmed one by one, separated by ;
  ticks TEXT NOT NULL
) STRICT;

-- an owner of dogs
CREATE TABLE client (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act                                  -- the act that wrote it
) STRICT;

-- how to reach a client
CREATE TABLE client_details (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  replaces INTEGER UNIQUE REFERENCES client_details,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  client INTEGER NOT NULL REFERENCES client,                           -- its client
  name TEXT NOT NULL CHECK (name <> ''),                               -- as people write it
  phone TEXT,                                                          -- telephone; NULL: nothing to say
  other_phone TEXT,                                                    -- second telephone; NULL: nothing to say
  address TEXT,                                                        -- postal address; NULL: nothing to say
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;
