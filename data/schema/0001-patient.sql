-- 0001-patient.sql: dogs and what is found about them
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- Columns are those of the descriptors in src/model/sw-fact-types.c; a test holds both together. Units: lengths 0.01
-- mm, masses g, medicines ug, volumes nL; SwDay: days since 1970-01-01. Enumerations (sw-values.h) have only a
-- floor: a member may be added there without a schema step, and model refuses unknown ones. Indexes, views
-- <table>_now and triggers of all fact tables: sw-guard.c.

-- a dog
CREATE TABLE patient (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act                                  -- the act that wrote it
) STRICT;

-- who the dog is
CREATE TABLE patient_details (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES patient_details,                  -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  client INTEGER NOT NULL REFERENCES client,                           -- its client
  name TEXT NOT NULL CHECK (name <> ''),                               -- as people write it
  species TEXT NOT NULL CHECK (species <> ''),                         -- dog, cat, horse, other
  breed TEXT,                                                          -- as the client says; NULL: nothing to say
  sex INTEGER CHECK (sex >= 0),                                        -- SwSex; NULL: not known
  neutered INTEGER CHECK (neutered IN (0, 1)),                         -- 0 or 1; NULL: not known
  born INTEGER CHECK (born BETWEEN -719162 AND 2932896),               -- SwDay; NULL: not known
  born_exact INTEGER NOT NULL CHECK (born_exact IN (0, 1)),            -- 0 = estimated
  markings TEXT                                                        -- colour, chip, marks; NULL: nothing to say
) STRICT;

-- one weighing
CREATE TABLE weight (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES weight,                           -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  grams INTEGER NOT NULL CHECK (grams > 0),                            -- g
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  typed TEXT NOT NULL,                                                 -- as it was typed
  scale TEXT                                                           -- which scale; NULL: nothing to say
) STRICT;

-- a tumour; belongs to the dog and lives through courses
CREATE TABLE tumour (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient                          -- whose
) STRICT;

-- where a tumour lies
CREATE TABLE tumour_details (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES tumour_details,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  letter INTEGER NOT NULL CHECK (letter >= 0),                         -- 0 = A
  region INTEGER NOT NULL CHECK (region >= 0),                         -- SwRegion
  side INTEGER NOT NULL CHECK (side >= 0),                             -- SwSide
  depth INTEGER NOT NULL CHECK (depth >= 0),                           -- SwDepth
  view INTEGER CHECK (view >= 0),                                      -- SwBodyView of the point; NULL: not known
  -- point on the outline, per mille of its width; NULL: not known
  x INTEGER CHECK (x BETWEEN 0 AND 1000),
  y INTEGER CHECK (y BETWEEN 0 AND 1000),                              -- per mille of its height; NULL: not known
  found INTEGER NOT NULL CHECK (found BETWEEN -719162 AND 2932896),    -- SwDay it was found
  description TEXT                                                     -- in words; NULL: nothing to say
) STRICT;

-- one treatment day with its lead-in and visits
CREATE TABLE course (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  number INTEGER NOT NULL CHECK (number > 0)                           -- 1, 2, ... within the patient
) STRICT;

-- an answer to one question of sw-question.h
CREATE TABLE answer (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES answer,                           -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  -- NULL: work-up of the dog, holds for all courses
  course INTEGER REFERENCES course,
  tumour INTEGER REFERENCES tumour,                                    -- NULL: of the dog
  question TEXT NOT NULL CHECK (question <> ''),                       -- code
  answer TEXT NOT NULL CHECK (answer <> ''),                           -- code among that question's answers
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay it was found or asked
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  -- date or number where the question asks one; NULL: not known
  value INTEGER,
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- a vet's written reason for a finding that the vet decides
CREATE TABLE reason (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES reason,                           -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER REFERENCES tumour,                                    -- NULL: of the dog
  finding TEXT NOT NULL CHECK (finding <> ''),                         -- code of the finding
  -- what distinguishes two findings of one code: a substance, a question; NULL: nothing to say
  about TEXT,
  reason TEXT NOT NULL CHECK (reason <> '')                            -- why
) STRICT;

-- a medicine the dog takes or took from elsewhere
CREATE TABLE medicine_taken (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES medicine_taken,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  substance TEXT NOT NULL CHECK (substance <> ''),                     -- lower-case active substance, or unknown-nsaid
  -- what the pack says it is, no brand needed; NULL: nothing to say
  product TEXT,
  dose_ug INTEGER CHECK (dose_ug >= 0),                                -- per dose; NULL: not known
  per_day_milli INTEGER CHECK (per_day_milli >= 0),                    -- doses a day, thousandths; NULL: not known
  first_day INTEGER CHECK (first_day BETWEEN -719162 AND 2932896),     -- SwDay; NULL: not known
  last_day INTEGER CHECK (last_day BETWEEN -719162 AND 2932896),       -- SwDay of the last dose; NULL = goes on
  form INTEGER NOT NULL CHECK (form >= 0),                             -- SwMedicineForm
  single_substance INTEGER CHECK (single_substance IN (0, 1)),         -- 1: nothing else in it; NULL: not known
  -- 1: no xylitol ticked for this pack; NULL: not known
  xylitol_free INTEGER CHECK (xylitol_free IN (0, 1)),
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;
