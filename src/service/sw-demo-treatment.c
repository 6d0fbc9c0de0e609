/* sw-demo-treatment.c: the verbs of the demo's script: the treatment day, visits, response
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-case.h"
#include "sw-error.h"
#include "sw-quantity.h"
#include "sw-question.h"

#include <string.h>

/* --- measuring --- */

static gboolean
add_reading (SwDemo *demo, const SwDemoStep *step, gint64 tumour, const char *typed, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_READING);
  SwReading *reading = sw_new (SW_FACT_READING, SwReading);
  gint64 axes[3];

  reading->tumour = tumour;
  reading->day = step->when.day;
  reading->minute = step->when.minute;
  reading->typed = g_strstrip (g_strdup (typed));
  sw_request_add (request, reading);
  if (tumour == 0 || !sw_reading_parse (reading->typed, axes, NULL))
    {
      sw_request_free (request);
      return sw_demo_fail (demo, step, error, "“%s” is no reading of a tumour of this dog.", typed);
    }
  reading->axis1 = axes[0];
  reading->axis2 = axes[1];
  reading->axis3 = axes[2];
  return sw_demo_do (demo, step, request, error);
}

/* A="21.4x18.0x8.9; 21.0x17.6x9.1" B=...; after the verb "tumour" size="..." of the newest. One act for each
 * reading. */
gboolean
sw_demo_measure (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  for (guint i = 0; i < step->dog->n_tumours; i++)
    {
      char letter[2] = { (char) ('A' + i), '\0' };
      gboolean newest = i + 1 == step->dog->n_tumours;
      const char *sizes = g_hash_table_lookup (step->args, letter);
      g_auto (GStrv) list = NULL;

      if (sizes == NULL && newest)
        sizes = g_hash_table_lookup (step->args, "size");
      list = g_strsplit (sizes ? sizes : "", ";", -1);
      for (guint k = 0; list[k] != NULL; k++)
        if (!add_reading (demo, step, step->dog->tumours[i], list[k], error))
          return FALSE;
    }
  return TRUE;
}

/* --- before the needle --- */

static void
add_answer (const SwDemoStep *step, SwRequest *request, const SwQuestion *question, gint64 tumour, const char *said)
{
  SwAnswer *answer = sw_new (SW_FACT_ANSWER, SwAnswer);

  answer->course = step->dog->course;
  answer->tumour = tumour;
  answer->question = g_strdup (question->code);
  answer->answer = g_strdup (said);
  answer->day = step->when.day;
  answer->minute = step->when.minute;
  if (question->extra == SW_EXTRA_NOTE)
    {
      g_autofree char *note = g_strconcat (question->code, "-note", NULL);

      answer->note = g_strdup (sw_demo_arg (step, note));
    }
  sw_request_add (request, answer);
}

gboolean
sw_demo_ask (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_ASK_TODAY);
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  g_autoptr (GArray) tumours = dossier ? sw_dossier_course_tumours (dossier, step->dog->course) : NULL;
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; tumours != NULL && i < n; i++)
    {
      const SwQuestion *question = &questions[i];
      const char *said = g_hash_table_lookup (step->args, question->code);

      if (said == NULL)
        said = g_hash_table_lookup (demo->treatment, question->code);
      if (question->at != SW_ASKED_ON_TREATMENT_DAY || said == NULL || g_str_equal (said, "-"))
        continue;
      if (question->of == SW_ASKED_OF_DOG)
        add_answer (step, request, question, 0, said);
      for (guint k = 0; question->of == SW_ASKED_OF_TUMOUR && k < tumours->len; k++)
        add_answer (step, request, question, g_array_index (tumours, gint64, k), said);
    }
  if (tumours != NULL)
    return sw_demo_do (demo, step, request, error);
  sw_request_free (request);
  return FALSE;
}

static SwReadAloud *
read_aloud (SwDemo *demo, const SwDemoStep *step, SwReadAloudStage stage)
{
  SwReadAloud *row = sw_new (SW_FACT_READ_ALOUD, SwReadAloud);

  row->course = step->dog->course;
  row->stage = stage;
  row->second = sw_demo_other_person (demo, sw_demo_person (demo, step, SW_ACT_RELEASE_DOSE), SW_ACT_SECOND_CHECK);
  row->day = step->when.day;
  row->minute = step->when.minute;
  return row;
}

gboolean
sw_demo_read_aloud (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_SECOND_CHECK);

  sw_request_add (request, read_aloud (demo, step, SW_READ_ALOUD_BEFORE_RELEASE));
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_release (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_request_release (sw_demo_person (demo, step, SW_ACT_RELEASE_DOSE), step->dog->patient,
                                           step->dog->course);
  const char *outside = sw_demo_arg (step, "outside");

  if (outside != NULL)
    sw_request_set_outside (request, outside);
  return sw_demo_do (demo, step, request, error);
}

/* --- the injection --- */

static SwVial *
vial (const SwDemoStep *step, const SwProtocol *protocol, SwDay expiry, gint64 left_nl, gint64 witness)
{
  SwVial *row = sw_new (SW_FACT_VIAL, SwVial);
  const char *lot = sw_demo_arg (step, "lot");

  row->lot = g_strdup (lot ? lot : "7K214");
  row->expiry = expiry;
  row->agent = g_strdup (protocol->agent);
  row->strength_ug_ml = protocol->strength;
  row->left_nl = left_nl;
  row->disposal = g_strdup ("cytotoxic waste");
  row->witness = witness;
  return row;
}

static void
add_vials (SwDemo *demo, const SwDemoStep *step, SwRequest *request, const SwProtocol *protocol, gint64 total_nl)
{
  gint64 witness = sw_demo_other_person (demo, request->person, SW_ACT_SECOND_CHECK);
  SwDay expiry = sw_day_add_days (demo->today, 365);

  for (; total_nl > 0; total_nl -= protocol->vial_nl)
    sw_request_add (request, vial (step, protocol, expiry, MAX (0, protocol->vial_nl - total_nl), witness));
}

static void
add_given (SwRequest *request, const SwReleaseTumour *released)
{
  SwInjectionTumour *given = sw_new (SW_FACT_INJECTION_TUMOUR, SwInjectionTumour);

  given->tumour = released->tumour;
  given->drawn_nl = given->given_nl = released->drawn_nl;
  sw_request_add (request, given);
}

static SwInjection *
injection (SwDemo *demo, const SwDemoStep *step)
{
  SwInjection *row = sw_new (SW_FACT_INJECTION, SwInjection);

  row->day = step->when.day;
  row->minute = step->when.minute;
  row->injector = sw_demo_person (demo, step, SW_ACT_RECORD_INJECTION);
  row->assistant = sw_demo_other_person (demo, row->injector, SW_ACT_SECOND_CHECK);
  row->needle = g_strdup ("25 G");
  row->gate = g_strdup ("");
  row->unexpected = g_strdup (sw_demo_arg (step, "unexpected"));
  return row;
}

gboolean
sw_demo_inject (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const SwRelease *release = dossier ? sw_dossier_release (dossier, step->dog->course) : NULL;
  const SwProtocol *protocol;
  const SwReleaseTumour *row;
  const char *outside = sw_demo_arg (step, "outside");
  SwRequest *request;

  if (release == NULL)
    return sw_demo_fail (demo, step, error, "nothing is released.");
  protocol = sw_books_protocol_named (demo->shipped, sw_demo_arg (step, "protocol"));
  request = sw_request_injection (sw_demo_person (demo, step, SW_ACT_RECORD_INJECTION), step->dog->patient,
                                  step->dog->course);
  sw_request_add (request, injection (demo, step));
  sw_request_add (request, read_aloud (demo, step, SW_READ_ALOUD_AFTER_DRAWING));
  for (guint i = 0; (row = sw_facts_next (&dossier->facts, SW_FACT_RELEASE_TUMOUR, &i)) != NULL;)
    if (row->release == release->fact.id)
      add_given (request, row);
  if (protocol != NULL)
    add_vials (demo, step, request, protocol, release->total_nl);
  if (outside != NULL)
    sw_request_set_outside (request, outside);
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_observe (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_ASK_TODAY);
  SwObservation *row = sw_new (SW_FACT_OBSERVATION, SwObservation);

  row->course = step->dog->course;
  row->day = step->when.day;
  row->minute = step->when.minute;
  row->heart_rate = 92 + step->when.minute % 17; /* invented: any plausible rate */
  row->gums = g_strdup ("pink");
  row->breathing = g_strdup ("quiet");
  row->vomiting = 0;
  row->site = g_strdup ("swollen, red");
  sw_request_add (request, row);
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_discharge (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_DISCHARGE);
  SwDischarge *row = sw_new (SW_FACT_DISCHARGE, SwDischarge);
  const char *night = g_hash_table_lookup (demo->practice, "night");

  row->course = step->dog->course;
  row->day = step->when.day;
  row->minute = step->when.minute;
  row->night_number = g_strdup (night ? night : "");
  row->eight_hour_contact = g_strdup (sw_practice_person_name (sw_desk_practice (demo->desk, NULL), request->person));
  sw_request_add (request, row);
  return sw_demo_do (demo, step, request, error);
}

/* --- visits --- */

static SwVisitMode
mode_of (const SwDemoStep *step)
{
  const char *mode = sw_demo_arg (step, "mode");

  if (g_strcmp0 (mode, "phone") == 0)
    return SW_VISIT_PHONE;
  return g_strcmp0 (mode, "photograph") == 0 ? SW_VISIT_PHOTOGRAPH : SW_VISIT_HERE;
}

/* "18x12" open, "closed", "none": a wound at the visit that is fact -1 of the request. */
static gboolean
add_wound (SwDemo *demo, const SwDemoStep *step, SwRequest *request, gint64 tumour, const char *said, GError **error)
{
  SwWound *row = sw_new (SW_FACT_WOUND, SwWound);
  g_auto (GStrv) axes = g_strsplit (said, "x", -1);

  row->course = step->dog->course;
  row->tumour = tumour;
  row->visit = -1;
  row->day = step->when.day;
  row->state = g_str_equal (said, "closed") ? SW_WOUND_CLOSED
               : g_str_equal (said, "none") ? SW_WOUND_NONE_YET
                                            : SW_WOUND_OPEN;
  sw_request_add (request, row);
  if (row->state == SW_WOUND_OPEN
      && (g_strv_length (axes) != 2 || !sw_length_parse (axes[0], &row->length, NULL)
          || !sw_length_parse (axes[1], &row->width, NULL)))
    return sw_demo_fail (demo, step, error, "a wound is LENGTHxWIDTH, closed or none, not %s.", said);
  return TRUE;
}

/* The day of the protocol that this visit answers: days since the injection. */
static gint64
planned_day (SwDemo *demo, const SwDemoStep *step)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, NULL);
  const SwInjection *row = dossier ? sw_dossier_injection (dossier, step->dog->course) : NULL;

  return row ? step->when.day - row->day : SW_UNKNOWN;
}

gboolean
sw_demo_visit (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_RECHECK);
  SwVisit *visit = sw_new (SW_FACT_VISIT, SwVisit);
  gint64 pain;

  visit->course = step->dog->course;
  visit->planned_day = planned_day (demo, step);
  visit->day = step->when.day;
  visit->minute = step->when.minute;
  visit->mode = mode_of (step);
  if (sw_demo_arg (step, "pain") != NULL && sw_integer_parse (sw_demo_arg (step, "pain"), &pain, NULL))
    visit->pain = pain;
  visit->cover = g_strcmp0 (sw_demo_arg (step, "cover"), "loose") == 0 ? SW_COVER_LOOSE : SW_COVER_OPEN;
  visit->note = g_strdup (sw_demo_arg (step, "text"));
  sw_request_add (request, visit);
  for (guint i = 0; i < step->dog->n_tumours; i++)
    {
      char letter[2] = { (char) ('A' + i), '\0' };
      const char *said = g_hash_table_lookup (step->args, letter);

      if (said != NULL && !add_wound (demo, step, request, step->dog->tumours[i], said, error))
        {
          sw_request_free (request);
          return FALSE;
        }
    }
  return sw_demo_do (demo, step, request, error);
}

static const char *const looks[SW_N_LOOK_STATES + 1] = { "gone", "too-small", "hidden", "not-measured", NULL };

static gboolean
add_look (SwDemo *demo, const SwDemoStep *step, gint64 tumour, SwLookState state, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_RECHECK);
  SwLook *look = sw_new (SW_FACT_LOOK, SwLook);

  look->course = step->dog->course;
  look->tumour = tumour;
  look->day = step->when.day;
  look->state = state;
  sw_request_add (request, look);
  return sw_demo_do (demo, step, request, error);
}

/* A=gone, A=too-small, A=hidden, or A="9.0x6.0x3.0" */
gboolean
sw_demo_size (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  for (guint i = 0; i < step->dog->n_tumours; i++)
    {
      char letter[2] = { (char) ('A' + i), '\0' };
      const char *said = g_hash_table_lookup (step->args, letter);
      int state = -1;

      for (int k = 0; said != NULL && looks[k] != NULL; k++)
        if (g_str_equal (looks[k], said))
          state = k;
      if (said != NULL
          && !(state >= 0 ? add_look (demo, step, step->dog->tumours[i], (SwLookState) state, error)
                          : add_reading (demo, step, step->dog->tumours[i], said, error)))
        return FALSE;
    }
  return TRUE;
}

/* --- response --- */

gboolean
sw_demo_score (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  return sw_demo_do (demo, step,
                     sw_request_score (sw_demo_person (demo, step, SW_ACT_SCORE), step->dog->patient, step->dog->course,
                                       step->when.day, SW_NON_TARGETS_NONE, FALSE),
                     error);
}

gboolean
sw_demo_recur (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_RECURRENCE);
  SwRecurrence *row = sw_new (SW_FACT_RECURRENCE, SwRecurrence);
  const char *distance = sw_demo_arg (step, "distance");

  row->course = step->dog->course;
  row->tumour = sw_demo_tumour (step, sw_demo_arg (step, "tumour"));
  row->day = step->when.day;
  row->sampled = g_strcmp0 (sw_demo_arg (step, "sampled"), "yes") == 0;
  if (distance == NULL || !sw_length_parse (distance, &row->distance, NULL))
    row->distance = SW_UNKNOWN;
  row->note = g_strdup (sw_demo_arg (step, "text"));
  sw_request_add (request, row);
  return sw_demo_do (demo, step, request, error);
}
