/* sw-treatment-words.c: what is read aloud and read back, and how a release and an injection are told
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-treatment-words-private.h"

#include "sw-quantity.h"
#include "sw-treatment-section-private.h"

#include <glib/gi18n-lib.h>

#define UG_PER_MG 1000

/* --- read aloud --- */

static void
append_readings (GString *text, const SwCase *c, gint64 tumour)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (c->dossier, tumour, c->now.day);

  for (guint i = 0; i < readings->len; i++)
    {
      const SwReading *reading = readings->pdata[i];
      const gint64 axes[3] = { reading->axis1, reading->axis2, reading->axis3 };
      g_autofree char *mm = sw_reading_format (axes);

      g_string_append_printf (text, i > 0 ? "; %s" : "%s", mm);
    }
  g_string_append (text, readings->len > 0 ? " mm" : _("not measured"));
}

static void
append_tumour (GString *text, const SwPageContext *context, const SwCase *c, const SwTumourDose *dose)
{
  g_autofree char *name = sw_treatment_tumour_name (context, dose->tumour);

  g_string_append_printf (text, "\n%s: ", name);
  append_readings (text, c, dose->tumour);
  if (dose->drawn_nl != SW_UNKNOWN)
    {
      g_autofree char *ml = sw_treatment_ml (dose->drawn_nl);

      g_string_append_printf (text, _("; inject %s"), ml);
    }
}

static const SwWeight *
weight_of_day (const SwDossier *dossier, SwDay day)
{
  const SwWeight *weight, *newest = NULL;

  for (guint i = 0; (weight = sw_facts_next (&dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (weight->day == day)
      newest = weight;
  return newest;
}

char *
sw_words_to_read_aloud (const SwPageContext *context, const SwDoseResult *dose)
{
  SwCase c = sw_treatment_case (context);
  const SwPatientDetails *dog = sw_dossier_patient (context->dossier);
  const SwWeight *weight = weight_of_day (context->dossier, c.now.day);
  g_autofree char *number = sw_patient_number (context->patient);
  g_autofree char *kg = weight != NULL ? sw_mass_format (weight->grams) : NULL;
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s, %s", dog != NULL ? dog->name : "?", number);
  if (kg != NULL)
    g_string_append_printf (text, ", %s kg", kg);
  for (guint i = 0; dose != NULL && i < dose->tumours->len; i++)
    append_tumour (text, context, &c, &g_array_index (dose->tumours, SwTumourDose, i));
  return g_string_free (text, FALSE);
}

/* --- release --- */

static char *
released_tumour (const SwPageContext *context, const SwReleaseTumour *row)
{
  g_autofree char *name = sw_treatment_tumour_name (context, row->tumour);
  g_autofree char *ml = sw_treatment_ml (row->drawn_nl);
  g_autofree char *holds = sw_ratio_format_significant (sw_ratio (row->syringe_nl, SW_NL_PER_ML), 1);

  if (row->syringe_nl == 0)
    return g_strdup_printf (_("%s: draw %s"), name, ml);
  return g_strdup_printf (_("%s: draw %s in a %s mL syringe"), name, ml, holds);
}

char *
sw_words_of_release (const SwPageContext *context, const SwRelease *release)
{
  g_autofree char *by
      = sw_treatment_by (context, release->fact.person, (SwMoment){ release->day, (int)release->minute },
                         sw_page_context_now (context).day);
  GString *text = g_string_new (NULL);
  const SwReleaseTumour *row;

  g_string_append_printf (text, _("Released by %s."), by);
  for (guint i = 0; (row = sw_facts_next (&context->dossier->facts, SW_FACT_RELEASE_TUMOUR, &i)) != NULL;)
    if (row->release == release->fact.id)
      {
        g_autofree char *line = released_tumour (context, row);

        g_string_append_printf (text, "\n%s", line);
      }
  if (release->outside == 1)
    g_string_append_printf (text, _("\nOutside the gate. Reason: %s"), release->reason);
  return g_string_free (text, FALSE);
}

/* --- void, over, amended --- */

/* A row of "table:id;table:id", NULL: no longer there. */
static const SwFact *
frozen_row (const SwDossier *dossier, const char *name)
{
  const char *colon = strchr (name, ':');
  g_autofree char *table = colon != NULL ? g_strndup (name, (gsize) (colon - name)) : NULL;
  int kind = table != NULL ? sw_fact_kind_from_table (table) : -1;

  return kind < 0 ? NULL : sw_facts_by_id (&dossier->facts, (SwFactKind) kind, g_ascii_strtoll (colon + 1, NULL, 10));
}

static gboolean
is_amended (const SwDossier *dossier, const SwRelease *release, const SwInjection *injection)
{
  g_auto (GStrv) names = g_strsplit (release->frozen, ";", -1);

  if (release->fact.replaces != 0 && injection->fact.act < release->fact.act)
    return TRUE;
  if (injection->fact.replaces != 0)
    return TRUE;
  for (guint i = 0; names[i] != NULL; i++)
    {
      const SwFact *row = frozen_row (dossier, names[i]);

      if (row != NULL && row->replaced_by != 0)
        return TRUE;
    }
  return FALSE;
}

/* The newest release row of the course, whatever became of it. */
static const SwRelease *
newest_release (const SwPageContext *context)
{
  GPtrArray *rows = context->dossier->facts.rows[SW_FACT_RELEASE];

  for (guint i = rows != NULL ? rows->len : 0; i > 0; i--)
    if (((const SwRelease *) rows->pdata[i - 1])->course == context->course)
      return rows->pdata[i - 1];
  return NULL;
}

static char *
words_before_injection (const SwPageContext *context)
{
  const SwRelease *release = newest_release (context);
  g_autofree char *day = NULL, *time = NULL;

  if (release == NULL || sw_treatment_release (context) != NULL)
    return NULL;
  day = sw_day_format (release->day);
  time = sw_time_format ((int) release->minute);
  if (release->fact.withdrawn)
    return g_strdup_printf (
        _ ("The release of %s %s is void: something it rested on was corrected. A vet releases the dose anew."), day,
        time);
  return g_strdup_printf (_("The release of %s %s ended with its day: weigh, measure and release anew."), day, time);
}

char *
sw_words_of_standing (const SwPageContext *context)
{
  const SwInjection *injection = sw_dossier_injection (context->dossier, context->course);
  const SwRelease *release = sw_treatment_release (context);

  if (injection == NULL)
    return words_before_injection (context);
  if (release != NULL && is_amended (context->dossier, release, injection))
    return g_strdup (
        _ ("Amended: something that the release or the injection rests on was corrected afterwards. Both stand; the "
           "figures above are computed anew."));
  return NULL;
}

/* --- injection --- */

static void
append_given (GString *text, const SwPageContext *context, const SwInjection *injection)
{
  const SwInjectionTumour *row;

  for (guint i = 0; (row = sw_facts_next (&context->dossier->facts, SW_FACT_INJECTION_TUMOUR, &i)) != NULL;)
    {
      g_autofree char *name = sw_treatment_tumour_name (context, row->tumour);
      g_autofree char *drawn = sw_treatment_ml (row->drawn_nl), *given = sw_treatment_ml (row->given_nl);

      if (row->injection != injection->fact.id)
        continue;
      g_string_append_printf (text, _("\n%s: %s drawn, %s given"), name, drawn, given);
      if (row->reason != NULL)
        g_string_append_printf (text, " (%s)", row->reason);
    }
}

static void
append_vials (GString *text, const SwPageContext *context, const SwInjection *injection)
{
  const SwPractice *practice = sw_page_context_practice (context);
  const SwVial *vial;

  for (guint i = 0; (vial = sw_facts_next (&context->dossier->facts, SW_FACT_VIAL, &i)) != NULL;)
    {
      g_autofree char *expiry = sw_day_format (vial->expiry), *left = sw_treatment_ml (vial->left_nl);
      g_autofree char *strength = sw_ratio_format_significant (sw_ratio (vial->strength_ug_ml, UG_PER_MG), 1);

      if (vial->injection != injection->fact.id)
        continue;
      g_string_append_printf (text, _ ("\nvial lot %s, %s %s mg/mL, good until %s, %s left over"), vial->lot,
                              vial->agent, strength, expiry, left);
      if (vial->disposal != NULL)
        g_string_append_printf (text, ", %s", vial->disposal);
      if (vial->witness != 0)
        g_string_append_printf (text, _(", witnessed by %s"), sw_practice_person_name (practice, vial->witness));
    }
}

char *
sw_words_of_injection (const SwPageContext *context, const SwInjection *injection)
{
  const SwPractice *practice = sw_page_context_practice (context);
  g_autofree char *day = sw_day_format (injection->day), *time = sw_time_format ((int) injection->minute);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("Injected on %s at %s by %s, needle %s"), day, time,
                          sw_practice_person_name (practice, injection->injector), injection->needle);
  if (injection->assistant != 0)
    g_string_append_printf (text, _(", assisted by %s"), sw_practice_person_name (practice, injection->assistant));
  append_given (text, context, injection);
  append_vials (text, context, injection);
  if (injection->unexpected != NULL)
    g_string_append_printf (text, _("\nUnexpected: %s"), injection->unexpected);
  if (injection->past_limit == 1)
    g_string_append (text, _("\nPast the limit."));
  if (injection->outside == 1)
    g_string_append_printf (text, _("\nOutside the gate. Reason: %s"), injection->reason);
  return g_string_free (text, FALSE);
}
