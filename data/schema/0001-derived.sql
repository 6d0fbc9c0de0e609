-- 0001-derived.sql: what lists need; made of the facts, and can be made again at any time
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later

-- where each course stands, as rules say it: rewritten by every act that touches the course
CREATE TABLE course_summary (
  course INTEGER PRIMARY KEY REFERENCES course,                        -- the course
  patient INTEGER NOT NULL REFERENCES patient,                         -- its dog
  stage TEXT NOT NULL CHECK (stage <> ''),                             -- code of the stage
  due_day INTEGER,                                                     -- SwDay of what is due next; NULL: nothing
  due_minute INTEGER CHECK (due_minute BETWEEN 0 AND 1439),            -- of the local day; NULL: any time of it
  open INTEGER NOT NULL CHECK (open IN (0, 1))                         -- 1: the course has not ended
) STRICT;

CREATE INDEX course_summary_patient ON course_summary (patient);
CREATE INDEX course_summary_open ON course_summary (due_day, patient) WHERE open = 1;

-- each dog as the patient list shows it
CREATE TABLE patient_list (
  patient INTEGER PRIMARY KEY REFERENCES patient,                      -- the dog
  client INTEGER NOT NULL REFERENCES client,                           -- its present client
  name TEXT NOT NULL,                                                  -- of the dog
  client_name TEXT NOT NULL,                                           -- of the client
  sort_key TEXT NOT NULL                                               -- the name, folded
) STRICT;

CREATE INDEX patient_list_sort ON patient_list (sort_key, patient);
CREATE INDEX patient_list_client ON patient_list (client);

-- the words a search may begin: of dog, client and number
CREATE TABLE patient_word (
  word TEXT NOT NULL,                                                  -- folded
  patient INTEGER NOT NULL REFERENCES patient,                         -- the dog it finds
  PRIMARY KEY (word, patient)
) STRICT, WITHOUT ROWID;

-- each client as the list of clients shows it
CREATE TABLE client_list (
  client INTEGER PRIMARY KEY REFERENCES client,                        -- the client
  name TEXT NOT NULL,                                                  -- of the client
  phone TEXT,                                                          -- telephone; NULL: none
  sort_key TEXT NOT NULL                                               -- the name, folded
) STRICT;

CREATE INDEX client_list_sort ON client_list (sort_key, client);

-- the words a search for a client may begin
CREATE TABLE client_word (
  word TEXT NOT NULL,                                                  -- folded
  client INTEGER NOT NULL REFERENCES client,                           -- the client it finds
  PRIMARY KEY (word, client)
) STRICT, WITHOUT ROWID;
