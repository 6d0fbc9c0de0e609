-- 0001-after.sql: what follows the injection
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- Columns are those of the descriptors in src/model/sw-fact-types.c; a test holds both together. Units: lengths 0.01
-- mm, masses g, medicines ug, volumes nL; SwDay: days since 1970-01-01. Enumerations (sw-values.h) have only a
-- floor: a member may be added there without a schema step, and model refuses unknown ones. Indexes, views
-- <table>_now and triggers of all fact tables: sw-guard.c.

-- one contact after the injection
CREATE TABLE visit (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES visit,                            -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  -- visit day of the protocol it answers; NULL: not known
  planned_day INTEGER,
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  mode INTEGER NOT NULL CHECK (mode >= 0),                             -- SwVisitMode
  pain INTEGER CHECK (pain BETWEEN 0 AND 10),                          -- 0-10; NULL: not known
  cover INTEGER CHECK (cover >= 0),                                    -- SwCover; NULL: not known
  cover_until INTEGER CHECK (cover_until BETWEEN -719162 AND 2932896), -- SwDay; NULL: not known
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- the wound of one tumour at a visit
CREATE TABLE wound (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES wound,                            -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  visit INTEGER NOT NULL REFERENCES visit,                             -- its visit
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  state INTEGER NOT NULL CHECK (state >= 0),                           -- SwWoundState
  length INTEGER CHECK (length >= 0),                                  -- 0.01 mm; NULL: not known
  width INTEGER CHECK (width >= 0),                                    -- 0.01 mm; NULL: not known
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- what is left of a tumour where calipers don't answer
CREATE TABLE look (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES look,                             -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER REFERENCES course,                                    -- its course; NULL: of no course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  state INTEGER NOT NULL CHECK (state >= 0),                           -- SwLookState
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- the response of one tumour at one visit
CREATE TABLE score (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES score,                            -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  category INTEGER NOT NULL CHECK (category >= 0),                     -- SwCategory
  baseline_sum INTEGER NOT NULL CHECK (baseline_sum >= 0),             -- longest diameters summed, 0.01 mm
  baseline_count INTEGER NOT NULL CHECK (baseline_count >= 0),         -- readings
  smallest_sum INTEGER NOT NULL CHECK (smallest_sum >= 0),             -- longest diameters, smallest visit, 0.01 mm
  smallest_count INTEGER NOT NULL CHECK (smallest_count >= 0),         -- readings summed
  -- longest diameters today, 0.01 mm; NULL: not known
  now_sum INTEGER CHECK (now_sum >= 0),
  now_count INTEGER CHECK (now_count >= 0),                            -- readings summed; NULL: not known
  wound_open INTEGER NOT NULL CHECK (wound_open IN (0, 1)),            -- flag
  -- 1: within the window
  counts_as_day_28 INTEGER NOT NULL CHECK (counts_as_day_28 IN (0, 1)),
  next_step TEXT NOT NULL,                                             -- code of the next step
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- the dog's overall response at one visit
CREATE TABLE overall (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES overall,                          -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  category INTEGER NOT NULL CHECK (category >= 0),                     -- SwCategory
  non_targets INTEGER NOT NULL CHECK (non_targets >= 0),               -- SwNonTargets
  new_tumour INTEGER NOT NULL CHECK (new_tumour IN (0, 1))             -- 0 or 1
) STRICT;

-- mast cells again in or beside a scar
CREATE TABLE recurrence (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES recurrence,                       -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  -- 1 confirmed by cytology or histology, 0 presumed
  sampled INTEGER NOT NULL CHECK (sampled IN (0, 1)),
  distance INTEGER CHECK (distance >= 0),                              -- from the scar, 0.01 mm; NULL: not known
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- how a course ended
CREATE TABLE course_end (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES course_end,                       -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  end INTEGER NOT NULL CHECK (end >= 0),                               -- SwEnd
  cause INTEGER CHECK (cause >= 0),                                    -- SwDeathCause; NULL: not known
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  certain INTEGER NOT NULL CHECK (certain IN (0, 1)),                  -- 1: the day is certain
  -- taper or stop after a cancelled lead-in; NULL: nothing to say
  vet_orders TEXT,
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- an attempt to reach the client
CREATE TABLE contact (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES contact,                          -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  reached INTEGER NOT NULL CHECK (reached IN (0, 1)),                  -- 0 or 1
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;
