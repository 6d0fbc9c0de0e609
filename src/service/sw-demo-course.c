/* sw-demo-course.c: the verbs of the demo's script: the course, its doses, its end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-move.h"

/* --- the course --- */

gboolean
sw_demo_open (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  const char *protocol = sw_demo_arg (step, "protocol"), *letters = sw_demo_arg (step, "tumours");
  const SwPractice *practice = sw_desk_practice (demo->desk, error);
  const SwDocument *document;
  g_auto (GStrv) list = g_strsplit (letters ? letters : "A", ",", -1);
  gint64 tumours[SW_DEMO_MOST_TUMOURS];
  guint n = 0;
  g_autoptr (SwReply) reply = NULL;

  if (practice == NULL)
    return FALSE;
  document = sw_practice_adopted (practice, SW_DOCUMENT_PROTOCOL, protocol ? protocol : "");
  if (document == NULL)
    return sw_demo_fail (demo, step, error, "protocol=ID names none that is adopted.");
  for (; list[n] != NULL && n < SW_DEMO_MOST_TUMOURS; n++)
    tumours[n] = sw_demo_tumour (step, list[n]);
  reply = sw_demo_perform (demo, step,
                           sw_request_open_course (sw_demo_person (demo, step, SW_ACT_OPEN_COURSE), step->dog->patient,
                                                   document->fact.id, tumours, n,
                                                   sw_demo_arg (step, "second") ? step->dog->course : 0, NULL),
                           error);
  if (reply == NULL)
    return FALSE;
  step->dog->course = sw_reply_id (reply, SW_FACT_COURSE);
  return TRUE;
}

gboolean
sw_demo_consent (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_CONSENT);
  SwConsent *consent = sw_new (SW_FACT_CONSENT, SwConsent);

  consent->course = step->dog->course;
  consent->state = SW_CONSENT_GIVEN;
  consent->signer = sw_demo_dup_arg (step, "client");
  consent->day = step->when.day;
  consent->minute = step->when.minute;
  consent->sheet_version = g_strdup ("1");
  consent->off_label = 1;
  consent->points = SW_CONSENT_ALL_POINTS;
  sw_request_add (request, consent);
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_sign (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const SwWeight *weight = dossier ? sw_facts_last (&dossier->facts, SW_FACT_WEIGHT) : NULL;
  SwDay treat;

  if (dossier == NULL || !sw_demo_need_day (demo, step, "treat", &treat, error))
    return FALSE;
  return sw_demo_do (demo, step,
                     sw_request_sign_plan (sw_demo_person (demo, step, SW_ACT_SIGN_PLAN), step->dog->patient,
                                           step->dog->course, treat, weight ? weight->fact.id : 0,
                                           sw_demo_arg (step, "choices")),
                     error);
}

gboolean
sw_demo_move (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  const char *way = sw_demo_arg (step, "way");
  SwRequest *request;
  SwDay treat;

  if (!sw_demo_need_day (demo, step, "treat", &treat, error))
    return FALSE;
  request = sw_request_move_day (sw_demo_person (demo, step, SW_ACT_SIGN_PLAN), step->dog->patient, step->dog->course,
                                 treat,
                                 g_strcmp0 (way, "anew") == 0    ? SW_MOVE_ANEW
                                 : g_strcmp0 (way, "go-on") == 0 ? SW_MOVE_GO_ON
                                                                 : SW_MOVE_UNDECIDED);
  sw_request_set_reason (request, sw_demo_arg (step, "text"));
  return sw_demo_do (demo, step, request, error);
}

/* --- doses --- */

/* The planned dose of a substance (NULL: any) that is due at this minute of the step's day. */
static const SwDosePlan *
due_dose (const SwDossier *dossier, const SwDemoStep *step, const char *substance, int minute)
{
  const SwDosePlan *dose;

  for (guint i = 0; (dose = sw_facts_next (&dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (dose->course == step->dog->course && dose->due_day == step->when.day && dose->due_minute == minute
        && (substance == NULL || g_str_equal (dose->substance, substance)))
      return dose;
  return NULL;
}

static const struct
{
  const char *word;
  SwDoseState state;
} states[] = {
  { "given", SW_DOSE_GIVEN }, { "late", SW_DOSE_LATE }, { "missed", SW_DOSE_MISSED }, { "vomited", SW_DOSE_VOMITED },
};

/* dose DAY HH:MM was=missed due=20:00 substance=S [given=HH:MM] */
gboolean
sw_demo_dose (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const char *due = sw_demo_arg (step, "due"), *at = sw_demo_arg (step, "given"), *was = sw_demo_arg (step, "was");
  SwMoment given = SW_NO_MOMENT;
  const SwDosePlan *dose;
  int minute = 0;

  if (dossier == NULL)
    return FALSE;
  if (at != NULL && sw_time_parse (at, &given.minute, NULL))
    given.day = step->when.day;
  if (due == NULL || !sw_time_parse (due, &minute, NULL)
      || (dose = due_dose (dossier, step, sw_demo_arg (step, "substance"), minute)) == NULL)
    return sw_demo_fail (demo, step, error, "no dose is due then.");
  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    if (g_strcmp0 (was, states[i].word) == 0)
      return sw_demo_do (demo, step,
                         sw_request_tick (sw_demo_person (demo, step, SW_ACT_RECORD_DOSE), step->dog->patient,
                                          dose->dose, 0, states[i].state, given, sw_demo_arg (step, "told-by")),
                         error);
  return sw_demo_fail (demo, step, error, "was= is given, late, missed or vomited.");
}

static gboolean
tell_dose (SwDemo *demo, const SwDemoStep *step, const SwDosePlan *dose, GError **error)
{
  const char *told_by = sw_demo_arg (step, "told-by");

  return sw_demo_do (demo, step,
                     sw_request_tick (sw_demo_person (demo, step, SW_ACT_RECORD_DOSE), step->dog->patient, dose->dose,
                                      0, SW_DOSE_GIVEN, SW_NO_MOMENT, told_by ? told_by : "the client, by phone"),
                     error);
}

/* All doses of this day due by now and not told yet were given. */
gboolean
sw_demo_tell (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  g_autoptr (GPtrArray) doses = dossier ? sw_dossier_doses (dossier, step->dog->course) : NULL;

  for (guint i = 0; doses != NULL && i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (dose->due_day == step->when.day && dose->due_minute <= step->when.minute
          && sw_dossier_dose_event (dossier, dose->dose) == NULL && !tell_dose (demo, step, dose, error))
        return FALSE;
    }
  return dossier != NULL;
}

/* replace DAY HH:MM due=20:00 substance=S at=HH:MM: the vet orders another in place of a lost dose of this day or
 * (of=DAY) another. */
gboolean
sw_demo_replace (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const char *due = sw_demo_arg (step, "due"), *at = sw_demo_arg (step, "at");
  SwMoment when = { step->when.day, 0 };
  SwDemoStep of = *step;
  const SwDosePlan *dose;
  int minute = 0;

  if (dossier == NULL
      || (sw_demo_arg (step, "of") != NULL && !sw_demo_need_day (demo, step, "of", &of.when.day, error)))
    return FALSE;
  if (at == NULL || !sw_time_parse (at, &when.minute, NULL) || due == NULL || !sw_time_parse (due, &minute, NULL)
      || (dose = due_dose (dossier, &of, sw_demo_arg (step, "substance"), minute)) == NULL)
    return sw_demo_fail (demo, step, error, "no dose is due then.");
  return sw_demo_do (demo, step,
                     sw_request_order_replacement (sw_demo_person (demo, step, SW_ACT_ORDER_REPLACEMENT),
                                                   step->dog->patient, dose->dose, when),
                     error);
}

/* --- after --- */

gboolean
sw_demo_contact (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_CONTACT);
  SwContact *contact = sw_new (SW_FACT_CONTACT, SwContact);

  contact->course = step->dog->course;
  contact->day = step->when.day;
  contact->minute = step->when.minute;
  contact->reached = g_strcmp0 (sw_demo_arg (step, "reached"), "yes") == 0;
  contact->note = sw_demo_dup_arg (step, "text");
  sw_request_add (request, contact);
  return sw_demo_do (demo, step, request, error);
}

static const char *const ends[SW_N_ENDS + 1]
    = { "completed", "died", "euthanised", "lost", "withdrawn", "stopped", "transferred", NULL };
static const char *const causes[SW_N_DEATH_CAUSES + 1] = { "tumour", "treatment", "other", "unknown", NULL };

gboolean
sw_demo_end (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  const char *how = sw_demo_arg (step, "how"), *why = sw_demo_arg (step, "cause");
  int end = -1, cause = -1;
  SwRequest *request;

  for (int i = 0; ends[i] != NULL; i++)
    if (g_strcmp0 (ends[i], how) == 0)
      end = i;
  for (int i = 0; causes[i] != NULL; i++)
    if (g_strcmp0 (causes[i], why) == 0)
      cause = i;
  if (end < 0)
    return sw_demo_fail (demo, step, error, "how= does not name a way to end.");
  request = sw_request_end_course (sw_demo_person (demo, step, SW_ACT_END_COURSE), step->dog->patient,
                                   step->dog->course, (SwEnd) end, cause < 0 ? SW_UNKNOWN : cause, step->when.day,
                                   TRUE);
  sw_request_set_vet_orders (request, sw_demo_arg (step, "orders"));
  sw_request_set_reason (request, sw_demo_arg (step, "text"));
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_set (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_CHANGE_SETTING);
  GHashTableIter iter;
  gpointer key, value;

  g_hash_table_iter_init (&iter, step->args);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      SwSetting *setting = sw_new (SW_FACT_SETTING, SwSetting);

      setting->key = g_strdup (key);
      setting->value = g_strdup (value);
      sw_request_add (request, setting);
    }
  return sw_demo_do (demo, step, request, error);
}
