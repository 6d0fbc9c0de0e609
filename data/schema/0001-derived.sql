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

-- each tumour injected in a course, as the outcomes count it (sw-treated.h): rewritten by every act that touches the
-- dog. Day numbers are SwDay
CREATE TABLE treated (
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  patient INTEGER NOT NULL REFERENCES patient,                         -- its dog
  course_number INTEGER NOT NULL,                                      -- of the dog's courses, from 1
  tumours INTEGER NOT NULL,                                            -- injected in this course
  place INTEGER NOT NULL,                                              -- among them, from 1
  letter INTEGER NOT NULL,                                             -- 0 = A
  day INTEGER NOT NULL,                                                -- of the injection
  minute INTEGER NOT NULL,                                             -- of the local day
  injection INTEGER NOT NULL,                                          -- into this tumour, from 1
  agent TEXT NOT NULL,                                                 -- of the protocol
  grade TEXT,                                                          -- answer that held; NULL: none
  region INTEGER NOT NULL,                                             -- SwRegion
  side INTEGER NOT NULL,                                               -- SwSide
  depth INTEGER NOT NULL,                                              -- SwDepth
  volume_mm3 INTEGER NOT NULL,                                         -- as released
  weight_g INTEGER NOT NULL,                                           -- of the release
  injector INTEGER NOT NULL REFERENCES person,                         -- who injected
  outside INTEGER NOT NULL,                                            -- 1: outside the gate
  past_limit INTEGER NOT NULL,                                         -- 1: past a limit
  window_last INTEGER NOT NULL,                                        -- last day that counts as day 28
  category INTEGER,                                                    -- SwCategory at day 28; NULL: no score
  scores INTEGER NOT NULL,                                             -- in this course, of any day
  best_num INTEGER,                                                    -- best change is best_num / best_den
  best_den INTEGER,                                                    -- NULL: none could be computed
  "end" INTEGER,                                                       -- SwEnd; NULL: the course is open
  end_cause INTEGER,                                                   -- SwDeathCause; NULL: none
  end_day INTEGER,                                                     -- NULL: the course is open
  died_day INTEGER,                                                    -- of the dog; NULL: not known to have died
  clear_day INTEGER,                                                   -- first complete response; NULL: none
  last_clear_day INTEGER,                                              -- last look that found it clear; NULL: none
  recurrence_day INTEGER,                                              -- after clear_day; NULL: none
  sampled INTEGER,                                                     -- 1: recurrence confirmed; NULL: none
  wound_looks INTEGER NOT NULL,                                        -- visits that judged the wound
  wound_open_day INTEGER,                                              -- last day not closed; NULL: none
  wound_closed_day INTEGER,                                            -- first day closed after it; NULL: not yet
  reader_a INTEGER REFERENCES person,                                  -- read first that day; NULL: no reading
  longest_a INTEGER,                                                   -- 0.01 mm
  longest_again INTEGER,                                               -- the same person's second reading; NULL: none
  reader_b INTEGER REFERENCES person,                                  -- first other reader; NULL: none
  longest_b INTEGER,                                                   -- 0.01 mm
  doses INTEGER NOT NULL,                                              -- lead-in doses due before the injection
  doses_on_time INTEGER NOT NULL,                                      -- of these
  doses_late INTEGER NOT NULL,                                         -- of these
  doses_lost INTEGER NOT NULL,                                         -- of these missed, vomited or stopped
  doses_replaced INTEGER NOT NULL,                                     -- of these lost, and replaced
  doses_untold INTEGER NOT NULL,                                       -- of these, nobody knows
  released_nl INTEGER NOT NULL,                                        -- to draw
  drawn_nl INTEGER NOT NULL,                                           -- as drawn
  given_nl INTEGER NOT NULL,                                           -- as injected
  vials INTEGER NOT NULL,                                              -- opened in the course
  left_nl INTEGER NOT NULL,                                            -- left in them
  PRIMARY KEY (course, tumour)
) STRICT, WITHOUT ROWID;

CREATE INDEX treated_patient ON treated (patient);
