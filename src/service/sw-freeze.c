/* sw-freeze.c: the rows that a release rests on, and what a correction of one of them means
 *
 * Before the injection a correction voids the release in the same transaction: the record never shows a standing
 * release beside a figure that it was not computed with. After it both stand, and only a vet may amend.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-desk-private.h"

#include "sw-dose-state.h"

/* --- what is frozen --- */

static void
freeze (GString *frozen, gconstpointer fact)
{
  const SwFact *head = fact;

  g_string_append_printf (frozen, "%s%s:%" G_GINT64_FORMAT, frozen->len > 0 ? ";" : "",
                          sw_fact_type (head->kind)->table, head->id);
}

typedef gboolean (*Belongs) (const SwCase *c, gconstpointer fact);

static gboolean
of_course_or_dog (const SwCase *c, gconstpointer fact)
{
  const SwAnswer *answer = fact;

  return answer->course == 0 || answer->course == c->course;
}

static gboolean
of_course (const SwCase *c, gconstpointer fact)
{
  const SwReason *reason = fact;

  return reason->course == c->course;
}

static gboolean
of_any (const SwCase *c, gconstpointer fact)
{
  return TRUE;
}

static gboolean
of_day (const SwCase *c, gconstpointer fact)
{
  const SwWeight *weight = fact;

  return weight->day == c->now.day;
}

static void
freeze_kind (GString *frozen, const SwCase *c, SwFactKind kind, Belongs belongs)
{
  gconstpointer fact;

  for (guint i = 0; (fact = sw_facts_next (&c->dossier->facts, kind, &i)) != NULL;)
    if (belongs (c, fact))
      freeze (frozen, fact);
}

static void
freeze_if (GString *frozen, gconstpointer fact)
{
  if (fact != NULL)
    freeze (frozen, fact);
}

/* Doses up to the needle, and what became of them. */
static void
freeze_doses (GString *frozen, const SwCase *c)
{
  g_autoptr (GPtrArray) doses = sw_dossier_doses (c->dossier, c->course);
  const SwPlan *plan = sw_dossier_plan (c->dossier, c->course);

  freeze_if (frozen, plan);
  for (guint i = 0; plan != NULL && i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (sw_dose_day_number (plan, dose) > 0 || sw_moment_compare (sw_dose_due (dose), c->now) > 0)
        continue;
      freeze (frozen, dose);
      freeze_if (frozen, sw_dossier_dose_event (c->dossier, dose->dose));
    }
}

static void
freeze_tumours (GString *frozen, const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);

  freeze_kind (frozen, c, SW_FACT_COURSE_TUMOUR, of_any);
  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      g_autoptr (GPtrArray) readings = sw_dossier_readings (c->dossier, tumour, c->now.day);

      freeze_if (frozen, sw_dossier_tumour (c->dossier, tumour));
      for (guint k = 0; k < readings->len; k++)
        freeze (frozen, readings->pdata[k]);
    }
}

char *
sw_freeze (const SwCase *c, const SwReadAloud *read_aloud)
{
  GString *frozen = g_string_new (NULL);

  freeze_if (frozen, sw_dossier_patient (c->dossier));
  freeze_kind (frozen, c, SW_FACT_WEIGHT, of_day);
  freeze_tumours (frozen, c);
  freeze_doses (frozen, c);
  freeze_if (frozen, sw_facts_of_course (&c->dossier->facts, SW_FACT_COURSE_DETAILS, c->course));
  freeze_if (frozen, sw_facts_of_course (&c->dossier->facts, SW_FACT_CONSENT, c->course));
  freeze_kind (frozen, c, SW_FACT_ANSWER, of_course_or_dog);
  freeze_kind (frozen, c, SW_FACT_REASON, of_course);
  freeze_kind (frozen, c, SW_FACT_MEDICINE_TAKEN, of_any);
  freeze_if (frozen, read_aloud);
  return g_string_free (frozen, FALSE);
}

/* --- what a correction means --- */

static gboolean
rests_on (const SwRelease *release, const SwFact *correction)
{
  g_autofree char *name
      = g_strdup_printf ("%s:%" G_GINT64_FORMAT, sw_fact_type (correction->kind)->table, correction->replaces);
  g_auto (GStrv) frozen = g_strsplit (release->frozen, ";", -1);

  return g_strv_contains ((const char *const *) frozen, name);
}

/* Sizes and looks of a tumour up to the day of a score: baseline, smallest and last are among them. */
static gboolean
score_rests_on (const SwFacts *facts, const SwFact *old)
{
  gint64 tumour = 0;
  SwDay day = SW_NO_DAY;
  const SwScore *score;

  if (old->kind == SW_FACT_READING)
    tumour = ((const SwReading *) old)->tumour, day = ((const SwReading *) old)->day;
  else if (old->kind == SW_FACT_LOOK)
    tumour = ((const SwLook *) old)->tumour, day = ((const SwLook *) old)->day;
  else if (old->kind == SW_FACT_WOUND)
    tumour = ((const SwWound *) old)->tumour, day = ((const SwWound *) old)->day;
  for (guint i = 0; tumour != 0 && (score = sw_facts_next (facts, SW_FACT_SCORE, &i)) != NULL;)
    if (score->tumour == tumour && day <= score->day)
      return TRUE;
  return FALSE;
}

/* Rows that are an injection's or a score's own. */
static gboolean
is_sealed_kind (SwFactKind kind)
{
  return kind == SW_FACT_INJECTION || kind == SW_FACT_INJECTION_TUMOUR || kind == SW_FACT_VIAL || kind == SW_FACT_SCORE
         || kind == SW_FACT_OVERALL;
}

static gboolean
injected (const SwFacts *facts, const SwRelease *release)
{
  return sw_facts_of_course (facts, SW_FACT_INJECTION, release->course) != NULL;
}

/* Whether the row being corrected is, or is under, something that only a vet may amend. */
static gboolean
amends (const SwFacts *facts, const SwFact *correction)
{
  const SwFact *old = sw_facts_by_id (facts, correction->kind, correction->replaces);
  const SwRelease *release;

  if (old == NULL || old->withdrawn)
    return FALSE;
  if (is_sealed_kind (correction->kind) || score_rests_on (facts, old))
    return TRUE;
  for (guint i = 0; (release = sw_facts_next (facts, SW_FACT_RELEASE, &i)) != NULL;)
    if (injected (facts, release)
        && (release->fact.id == old->id ? old->kind == SW_FACT_RELEASE : rests_on (release, correction)))
      return TRUE;
  return FALSE;
}

static gboolean
is_replaced_already (const SwOperation *op, const SwRelease *release)
{
  for (guint i = 0; i < op->facts->len; i++)
    {
      const SwFact *fact = op->facts->pdata[i];

      if (fact->kind == SW_FACT_RELEASE && fact->replaces == release->fact.id)
        return TRUE;
    }
  return FALSE;
}

static void
void_releases (SwOperation *op, const SwFact *correction)
{
  const SwFacts *facts = &op->dossier->facts;
  const SwRelease *release;

  for (guint i = 0; (release = sw_facts_next (facts, SW_FACT_RELEASE, &i)) != NULL;)
    if (!injected (facts, release) && rests_on (release, correction) && !is_replaced_already (op, release))
      {
        sw_operation_add (op, sw_fact_withdrawal (release));
        op->reply->voided = TRUE;
      }
}

void
sw_freeze_apply (SwOperation *op)
{
  guint given = op->facts->len; /* withdrawals are added behind them */

  for (guint i = 0; i < given; i++)
    {
      const SwFact *fact = op->facts->pdata[i];

      if (fact->replaces == 0)
        continue;
      void_releases (op, fact);
      op->reply->amended = op->reply->amended || amends (&op->dossier->facts, fact);
    }
  if (op->reply->amended)
    op->act = SW_ACT_AMEND_RELEASED;
}
