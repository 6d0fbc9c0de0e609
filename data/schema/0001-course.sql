-- 0001-course.sql: a treatment course up to the day the dog goes home
--
-- Copyright (C) 2026 The Siteward developers
-- SPDX-License-Identifier: GPL-3.0-or-later
--
-- Columns are those of the descriptors in src/model/sw-fact-types.c; a test holds both together. Units: lengths 0.01
-- mm, masses g, medicines ug, volumes nL; SwDay: days since 1970-01-01. Enumerations (sw-values.h) have only a
-- floor: a member may be added there without a schema step, and model refuses unknown ones. Indexes, views
-- <table>_now and triggers of all fact tables: sw-guard.c.

-- what a course is made with
CREATE TABLE course_details (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES course_details,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  document INTEGER NOT NULL REFERENCES document,                       -- the protocol's exact bytes
  -- course; a second injection names the course it follows; NULL: none
  follows INTEGER REFERENCES course,
  purpose TEXT                                                         -- what for; NULL: nothing to say
) STRICT;

-- whether a tumour is treated in a course
CREATE TABLE course_tumour (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES course_tumour,                    -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  treat INTEGER NOT NULL CHECK (treat IN (0, 1))                       -- 1 treated here, 0 left for later
) STRICT;

-- the client's consent for one course; a withdrawal is a row with state withdrawn
CREATE TABLE consent (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES consent,                          -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  state INTEGER NOT NULL CHECK (state >= 0),                           -- SwConsentState
  signer TEXT NOT NULL CHECK (signer <> ''),                           -- who signed
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  sheet_version TEXT NOT NULL CHECK (sheet_version <> ''),             -- of the client sheet
  off_label INTEGER NOT NULL CHECK (off_label IN (0, 1)),              -- 1: off-label parts agreed
  points INTEGER NOT NULL CHECK (points >= 0),                         -- SwConsentPoint bits explained
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- the medicine plan a vet signed; a moved day or a changed weight is a new row in its place
CREATE TABLE plan (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES plan,                             -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  -- SwDay planned as day 0
  treat_day INTEGER NOT NULL CHECK (treat_day BETWEEN -719162 AND 2932896),
  weight INTEGER NOT NULL REFERENCES weight,                           -- the weighing it is computed on
  choices TEXT NOT NULL,                                               -- group=substance pairs separated by ;
  cause INTEGER NOT NULL CHECK (cause >= 0),                           -- SwPlanCause
  moved_from INTEGER CHECK (moved_from BETWEEN -719162 AND 2932896),   -- SwDay before the move; NULL: not moved
  reason TEXT,                                                         -- why; NULL: nothing to say
  -- taper, insulin, food: the vet's written order; NULL: nothing to say
  vet_orders TEXT
) STRICT;

-- one planned dose of one medicine
CREATE TABLE dose (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  course INTEGER NOT NULL REFERENCES course                            -- its course
) STRICT;

-- what is to be given and when; withdrawn = no longer planned
CREATE TABLE dose_plan (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES dose_plan,                        -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  dose INTEGER NOT NULL REFERENCES dose,                               -- the dose
  plan INTEGER NOT NULL REFERENCES plan,                               -- the plan in force
  -- the protocol's group: corticosteroid, h1, h2, ...
  "group" TEXT NOT NULL CHECK ("group" <> ''),
  substance TEXT NOT NULL CHECK (substance <> ''),                     -- lower-case active substance
  day_number INTEGER NOT NULL,                                         -- 0 = day of injection
  -- SwDay
  due_day INTEGER NOT NULL CHECK (due_day BETWEEN -719162 AND 2932896),
  due_minute INTEGER NOT NULL CHECK (due_minute BETWEEN 0 AND 1439),   -- of the local day
  every_minutes INTEGER NOT NULL CHECK (every_minutes > 0),            -- interval of this medicine at this time
  dose_ug INTEGER NOT NULL CHECK (dose_ug >= 0),                       -- given dose
  strength_ug INTEGER CHECK (strength_ug > 0),                         -- tablet strength; NULL: not known
  halves INTEGER CHECK (halves > 0),                                   -- half tablets per dose; NULL: not known
  volume_nl INTEGER CHECK (volume_nl >= 0),                            -- liquids; NULL: not known
  -- dose; the missed or vomited dose this one replaces; NULL: none
  instead_of INTEGER REFERENCES dose
) STRICT;

-- what became of a planned dose
CREATE TABLE dose_event (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES dose_event,                       -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  dose INTEGER NOT NULL REFERENCES dose,                               -- the dose
  state INTEGER NOT NULL CHECK (state >= 0),                           -- SwDoseState
  day INTEGER CHECK (day BETWEEN -719162 AND 2932896),                 -- SwDay it was given; NULL: not known
  minute INTEGER CHECK (minute BETWEEN 0 AND 1439),                    -- of the local day; NULL: not known
  -- client by phone, seen here, ...; NULL: nothing to say
  told_by TEXT,
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- one caliper reading of one tumour
CREATE TABLE reading (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES reading,                          -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER REFERENCES course,                                    -- its course; NULL: of no course
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  axis1 INTEGER NOT NULL CHECK (axis1 > 0),                            -- 0.01 mm as typed: length
  axis2 INTEGER NOT NULL CHECK (axis2 > 0),                            -- width
  axis3 INTEGER NOT NULL CHECK (axis3 > 0),                            -- height
  typed TEXT NOT NULL                                                  -- as it was typed
) STRICT;

-- a second person read the particulars aloud
CREATE TABLE read_aloud (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES read_aloud,                       -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  stage INTEGER NOT NULL CHECK (stage >= 0),                           -- SwReadAloudStage
  second INTEGER NOT NULL REFERENCES person,                           -- person
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  -- 1: one person on duty, second look after two minutes
  alone INTEGER NOT NULL CHECK (alone IN (0, 1))
) STRICT;

-- a vet released the dose; withdrawn = void because something it froze was corrected
CREATE TABLE "release" (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES "release",                        -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay, becomes day 0
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  weight INTEGER NOT NULL REFERENCES weight,                           -- the weighing it is computed on
  plan INTEGER REFERENCES plan,                                        -- the plan in force; NULL: none
  read_aloud INTEGER REFERENCES read_aloud,                            -- the second check; NULL: none
  total_nl INTEGER NOT NULL CHECK (total_nl >= 0),                     -- sum to draw
  -- ids of all rows the release rests on: kind:id separated by ;
  frozen TEXT NOT NULL,
  gate TEXT NOT NULL,                                                  -- codes of what the gate found, separated by ;
  -- 1: outside the gate or past a limit, written by a vet with a reason
  outside INTEGER NOT NULL CHECK (outside IN (0, 1)),
  reason TEXT                                                          -- why; NULL: nothing to say
) STRICT;

-- what was released for one tumour
CREATE TABLE release_tumour (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES release_tumour,                   -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  "release" INTEGER NOT NULL REFERENCES "release",                     -- the release it follows
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  readings TEXT NOT NULL CHECK (readings <> ''),                       -- ids separated by ;
  volume_mm3 INTEGER NOT NULL CHECK (volume_mm3 >= 0),                 -- rounded, for show
  dose_nl INTEGER NOT NULL CHECK (dose_nl >= 0),                       -- before syringe rounding
  drawn_nl INTEGER NOT NULL CHECK (drawn_nl >= 0),                     -- to draw
  syringe_nl INTEGER NOT NULL CHECK (syringe_nl >= 0)                   -- size of the syringe, nL
) STRICT;

-- the injection as it happened
CREATE TABLE injection (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES injection,                        -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  "release" INTEGER NOT NULL REFERENCES "release",                     -- the release it follows
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  read_aloud INTEGER REFERENCES read_aloud,                            -- after drawing; NULL: none
  injector INTEGER NOT NULL REFERENCES person,                         -- person
  assistant INTEGER REFERENCES person,                                 -- person; NULL: nobody
  needle TEXT NOT NULL CHECK (needle <> ''),                           -- gauge
  -- what went otherwise than planned; NULL: nothing to say
  unexpected TEXT,
  outside INTEGER NOT NULL CHECK (outside IN (0, 1)),                  -- 1: outside the gate
  past_limit INTEGER NOT NULL CHECK (past_limit IN (0, 1)),            -- 1: past a limit
  gate TEXT NOT NULL,                                                  -- codes of what the gate found
  reason TEXT                                                          -- why; NULL: nothing to say
) STRICT;

-- what one tumour got
CREATE TABLE injection_tumour (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES injection_tumour,                 -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  injection INTEGER NOT NULL REFERENCES injection,                     -- the injection it belongs to
  tumour INTEGER NOT NULL REFERENCES tumour,                           -- its tumour
  drawn_nl INTEGER NOT NULL CHECK (drawn_nl >= 0),                     -- drawn up, nL
  given_nl INTEGER NOT NULL CHECK (given_nl >= 0),                     -- injected, nL
  reason TEXT                                                          -- why less than drawn; NULL: nothing to say
) STRICT;

-- one vial opened
CREATE TABLE vial (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES vial,                             -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  injection INTEGER NOT NULL REFERENCES injection,                     -- the injection it belongs to
  lot TEXT NOT NULL CHECK (lot <> ''),                                 -- as printed
  expiry INTEGER NOT NULL CHECK (expiry BETWEEN -719162 AND 2932896),  -- SwDay, its last day
  agent TEXT NOT NULL CHECK (agent <> ''),                             -- read from the vial
  strength_ug_ml INTEGER NOT NULL CHECK (strength_ug_ml > 0),          -- read from the vial
  left_nl INTEGER NOT NULL CHECK (left_nl >= 0),                       -- left in the vial, nL
  disposal TEXT,                                                       -- of what was left; NULL: nothing to say
  witness INTEGER REFERENCES person                                    -- person; NULL: nobody
) STRICT;

-- one look at the dog after the injection
CREATE TABLE observation (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES observation,                      -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  heart_rate INTEGER CHECK (heart_rate >= 0),                          -- a minute; NULL: not known
  gums TEXT,                                                           -- what they look like; NULL: nothing to say
  breathing TEXT,                                                      -- what it is like; NULL: nothing to say
  vomiting INTEGER CHECK (vomiting IN (0, 1)),                         -- 0 or 1; NULL: not known
  -- what the injected site looks like; NULL: nothing to say
  site TEXT,
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;

-- a vet let the dog go home
CREATE TABLE discharge (
  id INTEGER PRIMARY KEY CHECK (id > 0),                               -- row number
  act INTEGER NOT NULL REFERENCES act,                                 -- the act that wrote it
  patient INTEGER NOT NULL REFERENCES patient,                         -- whose
  replaces INTEGER UNIQUE REFERENCES discharge,                        -- the row it corrects; NULL: none
  withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),              -- 1: takes its subject back
  course INTEGER NOT NULL REFERENCES course,                           -- its course
  day INTEGER NOT NULL CHECK (day BETWEEN -719162 AND 2932896),        -- SwDay
  minute INTEGER NOT NULL CHECK (minute BETWEEN 0 AND 1439),           -- of the local day
  night_number TEXT NOT NULL CHECK (night_number <> ''),               -- out-of-hours telephone
  eight_hour_contact TEXT NOT NULL CHECK (eight_hour_contact <> ''),   -- who calls at hour 8
  note TEXT                                                            -- in the person's words; NULL: nothing to say
) STRICT;
