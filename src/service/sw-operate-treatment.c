/* sw-operate-treatment.c: releasing the dose, and the injection as it happened
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-dose.h"
#include "sw-quantity.h"
#include "sw-error.h"
#include "sw-gate.h"

#include <glib/gi18n-lib.h>

/* Refuses an intention that the findings stand against; lets pass what has happened, if a reason says why. */
static gboolean
passes_or_outside (SwOperation *op, GPtrArray *findings, gboolean *blocked, GError **error)
{
  *blocked = !sw_operation_passes (op, findings);
  if (*blocked && op->request->outside)
    op->refused = FALSE;
  return !op->request->outside || sw_operation_has_reason (op, error);
}

/* --- release --- */

static const SwReadAloud *
read_aloud_before (const SwCase *c)
{
  const SwReadAloud *row, *newest = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_READ_ALOUD, &i)) != NULL;)
    if (row->course == c->course && row->stage == SW_READ_ALOUD_BEFORE_RELEASE && row->day == c->now.day)
      newest = row;
  return newest;
}

static const SwWeight *
weight_of_day (const SwCase *c)
{
  const SwWeight *row, *newest = NULL;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (row->day == c->now.day)
      newest = row;
  return newest;
}

static char *
ids_of_readings (const SwCase *c, gint64 tumour)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (c->dossier, tumour, c->now.day);
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < readings->len; i++)
    g_string_append_printf (ids, "%s%" G_GINT64_FORMAT, i > 0 ? ";" : "", ((const SwFact *) readings->pdata[i])->id);
  return g_string_free (g_steal_pointer (&ids), FALSE);
}

/* A ratio in whole parts of its unit: nL of mL, mm3 of cm3. */
static gint64
in_parts (SwRatio value, gint64 parts)
{
  SwRatio product;
  gint64 whole;

  return sw_ratio_mul (value, sw_ratio (parts, 1), &product) && sw_ratio_round (product, &whole) ? whole : 0;
}

/* What was drawn for a tumour, said by a vet afterwards; NULL: not said. */
static const SwReleaseTumour *
said_for (const SwRequest *request, gint64 tumour)
{
  for (guint i = 0; i < request->facts->len; i++)
    {
      const SwReleaseTumour *row = request->facts->pdata[i];

      if (row->fact.kind == SW_FACT_RELEASE_TUMOUR && row->tumour == tumour)
        return row;
    }
  return NULL;
}

static gboolean
add_tumour (SwOperation *op, const SwTumourDose *dose, SwRelease *release, gint64 made, GError **error)
{
  const SwReleaseTumour *said = said_for (op->request, dose->tumour);
  SwReleaseTumour *row = sw_new (SW_FACT_RELEASE_TUMOUR, SwReleaseTumour);

  row->course = op->c.course;
  row->release = made;
  row->tumour = dose->tumour;
  row->readings = ids_of_readings (&op->c, dose->tumour);
  row->volume_mm3 = in_parts (dose->volume_cm3, 1000);
  row->dose_nl = dose->has_dose ? in_parts (dose->dose_ml, SW_NL_PER_ML) : 0;
  row->drawn_nl = op->request->outside && said ? said->drawn_nl : dose->drawn_nl;
  row->syringe_nl = dose->syringe_nl != SW_UNKNOWN ? dose->syringe_nl : 0;
  sw_operation_add (op, row);
  if (row->drawn_nl == SW_UNKNOWN)
    {
      g_autofree char *letter = sw_tumour_letter (dose->letter);

      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("Say how much was drawn for tumour %s: no dose can be computed for it."), letter);
      return FALSE;
    }
  release->total_nl += row->drawn_nl;
  return TRUE;
}

static SwRelease *
release_of (SwOperation *op)
{
  const SwReadAloud *read_aloud = read_aloud_before (&op->c);
  const SwPlan *plan = sw_dossier_plan (op->dossier, op->c.course);
  const SwRelease *before = sw_dossier_release (op->dossier, op->c.course);
  SwRelease *release = sw_new (SW_FACT_RELEASE, SwRelease);

  release->course = op->c.course;
  release->day = op->c.now.day;
  release->minute = op->c.now.minute;
  release->weight = weight_of_day (&op->c)->fact.id;
  release->plan = plan ? plan->fact.id : 0;
  release->read_aloud = read_aloud ? read_aloud->fact.id : 0;
  release->frozen = sw_freeze (&op->c, read_aloud);
  release->gate = sw_findings_codes (op->reply->findings, SW_NOTE);
  release->outside = op->request->outside;
  release->reason = g_strdup (op->request->reason);
  if (before != NULL && before->day < release->day) /* it ended with its day */
    release->fact.replaces = before->fact.id;
  return release;
}

static gboolean
add_release (SwOperation *op, const SwDoseResult *dose, GError **error)
{
  SwRelease *release = release_of (op);
  gint64 made = sw_operation_add (op, release);

  for (guint i = 0; i < dose->tumours->len; i++)
    if (!add_tumour (op, &g_array_index (dose->tumours, SwTumourDose, i), release, made, error))
      return FALSE;
  return TRUE;
}

static gboolean
not_injected_yet (SwOperation *op, GError **error)
{
  const SwInjection *injection = sw_dossier_injection (op->dossier, op->c.course);

  if (injection == NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_CONFLICT, _("The injection of this course is recorded already, by %s."),
               sw_practice_person_name (op->c.practice, injection->fact.person));
  return FALSE;
}

/* The gate may have asked for the dose itself: a finding is told once. */
static gboolean
has_finding (GPtrArray *findings, const SwFinding *like)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->code == like->code && finding->tumour == like->tumour
          && g_strcmp0 (finding->about, like->about) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
add_findings (GPtrArray *findings, const GPtrArray *more)
{
  for (guint i = 0; i < more->len; i++)
    if (!has_finding (findings, more->pdata[i]))
      g_ptr_array_add (findings, sw_finding_copy (more->pdata[i]));
}

gboolean
sw_operate_release (SwOperation *op, GError **error)
{
  g_autoptr (SwDoseResult) dose = NULL;
  GPtrArray *findings;
  gboolean blocked;

  if (!sw_operation_has_course (op, error) || !not_injected_yet (op, error)
      || !sw_operation_moment (op, &op->c.now, error))
    return FALSE;
  findings = sw_gate_b (&op->c, SW_GATE_AT_RELEASE);
  dose = sw_dose_of_case (&op->c, op->request->outside ? error : NULL);
  if (dose != NULL)
    {
      add_findings (findings, dose->refusals);
      add_findings (findings, dose->notes);
    }
  if (!passes_or_outside (op, findings, &blocked, error))
    return FALSE;
  if (op->refused)
    return TRUE;
  if (dose == NULL) /* outside, and error says what is missing */
    return FALSE;
  return add_release (op, dose, error);
}

/* --- injection --- */

/* The handed-over rows, sorted by kind and completed. */
typedef struct
{
  SwReadAloud *read_aloud;
  SwInjection *injection;
  GPtrArray *tumours;
  GPtrArray *vials;
} Handed;

static void
handed_clear (Handed *handed)
{
  g_clear_pointer (&handed->read_aloud, sw_fact_free);
  g_clear_pointer (&handed->injection, sw_fact_free);
  g_clear_pointer (&handed->tumours, g_ptr_array_unref);
  g_clear_pointer (&handed->vials, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Handed, handed_clear)

static gboolean
sort_handed (SwOperation *op, Handed *handed, GError **error)
{
  handed->tumours = g_ptr_array_new_with_free_func (sw_fact_free);
  handed->vials = g_ptr_array_new_with_free_func (sw_fact_free);
  for (guint i = 0; i < op->request->facts->len; i++)
    {
      const SwFact *fact = op->request->facts->pdata[i];

      if (fact->kind == SW_FACT_INJECTION && handed->injection == NULL)
        handed->injection = sw_fact_copy (fact);
      else if (fact->kind == SW_FACT_READ_ALOUD && handed->read_aloud == NULL)
        handed->read_aloud = sw_fact_copy (fact);
      else if (fact->kind == SW_FACT_INJECTION_TUMOUR)
        g_ptr_array_add (handed->tumours, sw_fact_copy (fact));
      else if (fact->kind == SW_FACT_VIAL)
        g_ptr_array_add (handed->vials, sw_fact_copy (fact));
    }
  if (handed->injection != NULL && handed->tumours->len > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Say when the injection was given, and how much into each tumour."));
  return FALSE;
}

static const SwRelease *
standing_release (SwOperation *op, GError **error)
{
  const SwRelease *release = sw_dossier_release (op->dossier, op->c.course);

  if (release == NULL)
    g_set_error (
        error, SW_ERROR, SW_ERROR_REFUSED,
        _("No release stands for this course: release the dose, or, if it was given without one, let a vet write the "
           "release afterwards with the reason."));
  return release;
}

static void
add_handed (SwOperation *op, Handed *handed)
{
  gint64 made;

  handed->injection->read_aloud = 0;
  if (handed->read_aloud != NULL)
    {
      handed->read_aloud->course = op->c.course;
      handed->read_aloud->stage = SW_READ_ALOUD_AFTER_DRAWING;
      handed->injection->read_aloud = sw_operation_add (op, g_steal_pointer (&handed->read_aloud));
    }
  made = sw_operation_add (op, g_steal_pointer (&handed->injection));
  for (guint i = 0; i < handed->tumours->len; i++)
    {
      SwInjectionTumour *row = handed->tumours->pdata[i];

      row->course = op->c.course;
      row->injection = made;
    }
  for (guint i = 0; i < handed->vials->len; i++)
    {
      SwVial *row = handed->vials->pdata[i];

      row->course = op->c.course;
      row->injection = made;
    }
  sw_operation_add_all (op, g_steal_pointer (&handed->tumours));
  sw_operation_add_all (op, g_steal_pointer (&handed->vials));
}

static GPtrArray *
ask_at_injection (SwOperation *op, const Handed *handed, gboolean *past_limit)
{
  SwInjectionRecord record = { handed->injection, handed->tumours, handed->vials, handed->read_aloud };
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (&op->c, NULL);
  GPtrArray *findings = sw_gate_b (&op->c, SW_GATE_AT_INJECTION);
  g_autoptr (GPtrArray) more = sw_gate_injection (&op->c, &record);

  add_findings (findings, more);
  if (dose != NULL)
    add_findings (findings, dose->refusals);
  *past_limit = dose != NULL && dose->refused;
  return findings;
}

gboolean
sw_operate_injection (SwOperation *op, GError **error)
{
  g_auto (Handed) handed = { 0 };
  const SwRelease *release;
  SwInjection *injection;
  gboolean past_limit, blocked;
  GPtrArray *findings;

  if (!sw_operation_has_course (op, error) || !not_injected_yet (op, error) || !sort_handed (op, &handed, error))
    return FALSE;
  injection = handed.injection;
  op->c.now = (SwMoment){ injection->day, (int) injection->minute };
  release = standing_release (op, error);
  if (release == NULL || !sw_operation_not_ahead (op, op->c.now, error))
    return FALSE;
  findings = ask_at_injection (op, &handed, &past_limit);
  if (!passes_or_outside (op, findings, &blocked, error) || op->refused)
    return op->refused;
  injection->course = op->c.course;
  injection->release = release->fact.id;
  injection->outside = blocked;
  injection->past_limit = past_limit;
  g_free (injection->gate);
  injection->gate = sw_findings_codes (op->reply->findings, SW_NOTE);
  if (injection->reason == NULL)
    injection->reason = g_strdup (op->request->reason);
  add_handed (op, &handed);
  return TRUE;
}
