/* sw-gate-today.c: what gate B wants to know of the treatment day itself
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-gate-private.h"

#include "sw-definitions.h"
#include "sw-question.h"
#include "sw-replan-private.h"
#include "sw-stock-private.h"

#include <glib/gi18n-lib.h>

/* Weight and readings */

static const SwWeight *
weight_today (const SwCase *c, guint *times)
{
  const SwWeight *weight, *last = NULL;

  *times = 0;
  for (guint i = 0; (weight = sw_facts_next (&c->dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (weight->day == c->now.day)
      {
        last = weight;
        (*times)++;
      }
  return last;
}

/* The change from the planning weight as a share of it; FALSE: within the limit. */
static gboolean
weight_changed (gint64 grams, gint64 planned, SwRatio *share)
{
  int order;

  if (planned <= 0)
    return FALSE;
  *share = sw_ratio (ABS (grams - planned), planned);
  return !sw_ratio_compare (*share, sw_definition_ratio (SW_DEF_WEIGHT_CHANGE), &order) || order > 0;
}

static void
find_change (SwGateAsk *ask, guint times, gint64 grams, gint64 planned, SwRatio share)
{
  SwFinding *finding = sw_gate_find (ask, times < 2 ? SW_FINDING_WEIGH_AGAIN : SW_FINDING_WEIGHT_CHANGED);
  SwRatio limit = sw_definition_ratio (SW_DEF_WEIGHT_CHANGE);

  sw_finding_mass (finding, "weight", grams);
  sw_finding_mass (finding, "planned", planned);
  sw_finding_ratio (finding, "value", share.num * SW_PER_CENT, share.den, "%");
  sw_finding_ratio (finding, "limit", limit.num * SW_PER_CENT, limit.den, "%");
}

static char *
range_of (const SwCase *c, const char *substance)
{
  const SwMedicine *medicine = sw_books_medicine (c->books, substance);
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;

  if (medicine == NULL || medicine->high_ug_per_kg == SW_UNKNOWN || sw_stock_least (medicine) == SW_UNKNOWN)
    return g_strdup (_("a document that is missing"));
  low = sw_ratio_format_significant (sw_ratio (sw_stock_least (medicine), SW_UG_PER_MG), 2);
  high = sw_ratio_format_significant (sw_ratio (medicine->high_ug_per_kg, SW_UG_PER_MG), 2);
  return g_strdup_printf (_("%s to %s mg/kg"), low, high);
}

/* Remaining medicines at today's weight, each substance once. Inside the limit of change it is a note. */
static void
check_ranges (SwGateAsk *ask, gint64 grams, gboolean changed)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (ask->c->dossier, ask->c->course);
  g_autoptr (GHashTable) said = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];
      g_autofree char *range = NULL;
      SwFinding *finding;

      if (!sw_dose_is_open (ask->c, dose) || sw_dose_in_range (ask->c, dose, grams)
          || !g_hash_table_add (said, dose->substance))
        continue;
      range = range_of (ask->c, dose->substance);
      finding = sw_gate_find (ask, SW_FINDING_OUT_OF_RANGE);
      finding->severity = changed ? SW_STOP : SW_NOTE;
      finding->about = g_strdup (dose->substance);
      sw_finding_text (finding, "substance", dose->substance);
      sw_finding_ratio (finding, "value", dose->dose_ug, SW_UG_PER_MG, "mg");
      sw_finding_text (finding, "limit", range);
    }
}

static void
check_weight (SwGateAsk *ask)
{
  guint times;
  const SwWeight *weight = weight_today (ask->c, &times);
  gint64 planned = ask->plan != NULL ? sw_plan_grams (ask->c, ask->plan) : 0;
  SwRatio share;
  gboolean changed;

  if (weight == NULL)
    {
      sw_gate_find (ask, SW_FINDING_NO_WEIGHT_TODAY);
      return;
    }
  changed = weight_changed (weight->grams, planned, &share);
  if (changed)
    find_change (ask, times, weight->grams, planned, share);
  check_ranges (ask, weight->grams, changed);
}

static void
check_readings (SwGateAsk *ask, gint64 tumour)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (ask->c->dossier, tumour, ask->c->now.day);
  gint64 least = sw_definition_whole (SW_DEF_READINGS_LEAST);
  SwFinding *finding;

  if (readings->len == 0)
    sw_gate_find_tumour (ask, SW_FINDING_NO_READING_TODAY, tumour);
  else if (readings->len < least)
    {
      finding = sw_gate_find_tumour (ask, SW_FINDING_ONE_READING, tumour);
      sw_finding_count (finding, "value", readings->len);
      sw_finding_count (finding, "limit", least);
    }
}

void
sw_gate_measures (SwGateAsk *ask)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (ask->c->dossier, ask->c->course);

  check_weight (ask);
  for (guint i = 0; i < tumours->len; i++)
    check_readings (ask, g_array_index (tumours, gint64, i));
}

/* Questions */

/* What must be at hand. What the other answers mean stands in the protocol's document, and suitability says it. */
typedef struct
{
  const char *question;
  SwFindingCode code;
} NeededToday;

static const NeededToday needed_today[] = {
  { "adrenaline-today", SW_FINDING_NOT_WITHIN_REACH },
  { "fluids-today", SW_FINDING_NOT_WITHIN_REACH },
  { "antihistamine-today", SW_FINDING_NOT_WITHIN_REACH },
  { "corticosteroid-today", SW_FINDING_NOT_WITHIN_REACH },
  { "oxygen-today", SW_FINDING_NOT_WITHIN_REACH },
  { "eye-protection-today", SW_FINDING_NOT_PROTECTED },
  { "gloves-today", SW_FINDING_NOT_PROTECTED },
  { "luer-lock-today", SW_FINDING_NOT_PROTECTED },
  { "sharps-box-today", SW_FINDING_NOT_PROTECTED },
};

static SwFinding *
find_question (SwGateAsk *ask, SwFindingCode code, const SwQuestion *question, gint64 tumour)
{
  SwFinding *finding = tumour != 0 ? sw_gate_find_tumour (ask, code, tumour) : sw_gate_find (ask, code);

  finding->about = g_strdup (question->code);
  sw_finding_text (finding, "question", _(question->name));
  sw_finding_text (finding, "what", _(question->name));
  return finding;
}

static void
check_needed (SwGateAsk *ask, const SwQuestion *question, const SwAnswer *answer)
{
  for (guint i = 0; i < G_N_ELEMENTS (needed_today); i++)
    if (g_str_equal (needed_today[i].question, question->code) && g_str_equal (answer->answer, "no"))
      find_question (ask, needed_today[i].code, question, 0);
}

static void
check_question (SwGateAsk *ask, const SwQuestion *question, gint64 tumour)
{
  const SwAnswer *answer = sw_dossier_answer (ask->c->dossier, ask->c->course, tumour, question->code, ask->c->now.day);

  if (answer == NULL || answer->day != ask->c->now.day)
    find_question (ask, SW_FINDING_NOT_ASKED, question, tumour);
  else
    check_needed (ask, question, answer);
}

void
sw_gate_questions (SwGateAsk *ask)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (ask->c->dossier, ask->c->course);
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    {
      if (questions[i].at != SW_ASKED_ON_TREATMENT_DAY)
        continue;
      if (questions[i].of == SW_ASKED_OF_DOG)
        check_question (ask, &questions[i], 0);
      for (guint t = 0; questions[i].of == SW_ASKED_OF_TUMOUR && t < tumours->len; t++)
        check_question (ask, &questions[i], g_array_index (tumours, gint64, t));
    }
}

/* The second person */

static const SwReadAloud *
read_aloud_today (const SwCase *c)
{
  const SwReadAloud *row, *last = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_READ_ALOUD, &i)) != NULL;)
    if (row->course == c->course && row->stage == SW_READ_ALOUD_BEFORE_RELEASE && row->day == c->now.day)
      last = row;
  return last;
}

/* When the last weight or reading of today was recorded: what was read aloud before that is stale. */
static gint64
last_entry_us (const SwCase *c)
{
  const SwWeight *weight;
  const SwReading *reading;
  gint64 last = 0;

  for (guint i = 0; (weight = sw_facts_next (&c->dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (weight->day == c->now.day)
      last = MAX (last, weight->fact.recorded_us);
  for (guint i = 0; (reading = sw_facts_next (&c->dossier->facts, SW_FACT_READING, &i)) != NULL;)
    if (reading->day == c->now.day)
      last = MAX (last, reading->fact.recorded_us);
  return last;
}

static void
check_second_look (SwGateAsk *ask, const SwReadAloud *row)
{
  gint64 minutes = (row->fact.recorded_us - last_entry_us (ask->c)) / G_TIME_SPAN_MINUTE;
  gint64 limit = sw_definition_whole (SW_DEF_SECOND_LOOK);
  SwFinding *finding;

  if (!row->alone && row->second == row->fact.person)
    {
      finding = sw_gate_find (ask, SW_FINDING_SAME_PERSON);
      sw_finding_text (finding, "person", sw_practice_person_name (ask->c->practice, row->second));
      sw_finding_count (finding, "limit", limit);
    }
  if (!row->alone || minutes >= limit)
    return;
  finding = sw_gate_find (ask, SW_FINDING_SECOND_LOOK_EARLY);
  sw_finding_count (finding, "value", minutes);
  sw_finding_count (finding, "limit", limit);
}

void
sw_gate_read_aloud (SwGateAsk *ask)
{
  const SwReadAloud *row = read_aloud_today (ask->c);

  if (row == NULL)
    sw_gate_find (ask, SW_FINDING_NOT_READ_ALOUD);
  else if (row->fact.recorded_us < last_entry_us (ask->c))
    sw_gate_find (ask, SW_FINDING_READ_ALOUD_STALE);
  else
    check_second_look (ask, row);
}
