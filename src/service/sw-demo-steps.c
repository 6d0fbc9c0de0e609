/* sw-demo-steps.c: the verbs of the demo's script: registering, work-up, course, medicines, end
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-move.h"
#include "sw-quantity.h"
#include "sw-question.h"
#include "sw-region.h"

static gboolean
day_of (SwDemo *demo, const SwDemoStep *step, const char *name, SwDay *day, GError **error)
{
  const char *text = sw_demo_arg (step, name);

  if (text == NULL || !sw_demo_day (demo, text, day, NULL))
    return sw_demo_fail (demo, step, error, "%s=DAY is missing.", name);
  return TRUE;
}

/* The same, or SW_NO_DAY when it is not said. */
static SwDay
day_if_said (SwDemo *demo, const SwDemoStep *step, const char *name)
{
  const char *text = sw_demo_arg (step, name);
  SwDay day;

  return text != NULL && sw_demo_day (demo, text, &day, NULL) ? day : SW_NO_DAY;
}

static char *
dup_arg (const SwDemoStep *step, const char *name)
{
  return g_strdup (sw_demo_arg (step, name));
}

/* --- registering --- */

static SwPatientDetails *
patient_details (SwDemo *demo, const SwDemoStep *step, gint64 client, gint64 patient)
{
  SwPatientDetails *details = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  const char *sex = sw_demo_arg (step, "sex"), *neutered = sw_demo_arg (step, "neutered");

  details->fact.patient = patient;
  details->client = client;
  details->name = dup_arg (step, "name");
  details->species = g_strdup (sw_demo_arg (step, "species") ? sw_demo_arg (step, "species") : "dog");
  details->breed = dup_arg (step, "breed");
  details->sex = g_strcmp0 (sex, "male") == 0 ? SW_SEX_MALE : SW_SEX_FEMALE;
  details->neutered = g_strcmp0 (neutered, "yes") == 0;
  details->born = day_if_said (demo, step, "born");
  details->born_exact = 1;
  details->markings = dup_arg (step, "markings");
  return details;
}

static gboolean
do_register (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_REGISTER_PATIENT);
  SwClientDetails *client = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  g_autoptr (SwReply) reply = NULL;
  gint64 patient;

  client->client = sw_request_add (request, sw_new (SW_FACT_CLIENT, SwClient));
  client->name = dup_arg (step, "client");
  client->phone = dup_arg (step, "phone");
  client->address = dup_arg (step, "address");
  sw_request_add (request, client);
  patient = sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  sw_request_add (request, patient_details (demo, step, client->client, patient));
  reply = sw_demo_perform (demo, step, request, error);
  if (reply == NULL)
    return FALSE;
  step->dog->patient = reply->patient;
  return TRUE;
}

static gboolean
do_weigh (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_WEIGH);
  SwWeight *weight = sw_new (SW_FACT_WEIGHT, SwWeight);
  const char *typed = sw_demo_arg (step, "weight");

  weight->day = step->when.day;
  weight->minute = step->when.minute;
  weight->typed = g_strdup (typed ? typed : "");
  weight->scale = g_strdup ("2");
  sw_request_add (request, weight);
  if (typed != NULL && sw_mass_parse (typed, &weight->grams, NULL))
    return sw_demo_do (demo, step, request, error);
  sw_request_free (request);
  return sw_demo_fail (demo, step, error, "weight=MASS is missing.");
}

static gboolean
place (SwDemo *demo, const SwDemoStep *step, SwTumourDetails *details, GError **error)
{
  const char *region = sw_demo_arg (step, "region"), *side = sw_demo_arg (step, "side"), *depth = sw_demo_arg (step, "depth");
  int found[3] = { sw_region_from_code (region ? region : ""), sw_side_from_code (side ? side : ""),
                   sw_depth_from_code (depth ? depth : "cutaneous") };

  if (found[0] < 0 || found[1] < 0 || found[2] < 0)
    return sw_demo_fail (demo, step, error, "region=, side= and depth= are codes of the body map.");
  details->region = found[0];
  details->side = found[1];
  details->depth = found[2];
  return TRUE;
}

/* The tumour, then its first reading. */
static gboolean
do_tumour (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_REGISTER_TUMOUR);
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);
  SwDemoDog *dog = step->dog;
  g_autoptr (SwReply) reply = NULL;

  details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
  details->letter = dog->n_tumours;
  details->found = step->when.day;
  details->description = dup_arg (step, "text");
  sw_request_add (request, details);
  if (dog->n_tumours == SW_DEMO_MOST_TUMOURS || !place (demo, step, details, error))
    {
      sw_request_free (request);
      return FALSE;
    }
  reply = sw_demo_perform (demo, step, request, error);
  if (reply == NULL)
    return FALSE;
  dog->tumours[dog->n_tumours++] = sw_reply_id (reply, SW_FACT_TUMOUR);
  return sw_demo_measure (demo, step, error);
}

/* --- work-up --- */

static void
add_answer (SwDemo *demo, const SwDemoStep *step, SwRequest *request, const SwQuestion *question, gint64 tumour,
            const char *said)
{
  SwAnswer *answer = sw_new (SW_FACT_ANSWER, SwAnswer);
  g_autofree char *on = g_strconcat (question->code, "-on", NULL);

  answer->tumour = tumour;
  answer->question = g_strdup (question->code);
  answer->answer = g_strdup (said);
  answer->day = step->when.day;
  answer->minute = step->when.minute;
  if (question->extra == SW_EXTRA_DATE)
    answer->value = sw_demo_arg (step, on) ? day_if_said (demo, step, on) : step->when.day;
  sw_request_add (request, answer);
}

/* What this line says, for this tumour ("A.surface") or at all, else the usual answer. */
static const char *
said (const SwDemoStep *step, GHashTable *usual, const char *code, int letter)
{
  char of_tumour[64];
  const char *answer;

  g_snprintf (of_tumour, sizeof of_tumour, "%c.%s", 'A' + letter, code);
  answer = letter >= 0 ? g_hash_table_lookup (step->args, of_tumour) : NULL;
  if (answer == NULL)
    answer = g_hash_table_lookup (step->args, code);
  return answer ? answer : g_hash_table_lookup (usual, code);
}

static gboolean
do_work_up (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_ANSWER_WORK_UP);
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    {
      const SwQuestion *question = &questions[i];
      guint times = question->of == SW_ASKED_OF_TUMOUR ? step->dog->n_tumours : 1;

      for (guint k = 0; question->at == SW_ASKED_AT_WORK_UP && k < times; k++)
        {
          gboolean of_tumour = question->of == SW_ASKED_OF_TUMOUR;
          const char *answer = said (step, demo->work_up, question->code, of_tumour ? (int) k : -1);

          if (answer != NULL && !g_str_equal (answer, "-"))
            add_answer (demo, step, request, question, of_tumour ? step->dog->tumours[k] : 0, answer);
        }
    }
  return sw_demo_do (demo, step, request, error);
}

static gboolean
do_medicine (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_MEDICINE_TAKEN);
  SwMedicineTaken *taken = sw_new (SW_FACT_MEDICINE_TAKEN, SwMedicineTaken);

  taken->substance = dup_arg (step, "substance");
  taken->first_day = day_if_said (demo, step, "first");
  taken->last_day = day_if_said (demo, step, "last");
  taken->form = SW_FORM_TABLET;
  taken->single_substance = 1;
  taken->note = dup_arg (step, "note");
  sw_request_add (request, taken);
  return sw_demo_do (demo, step, request, error);
}

static gboolean
do_reason (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_GIVE_REASON);
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);

  reason->course = step->dog->course;
  reason->tumour = sw_demo_tumour (step, sw_demo_arg (step, "tumour"));
  reason->finding = dup_arg (step, "finding");
  reason->about = dup_arg (step, "about");
  reason->reason = dup_arg (step, "text");
  sw_request_add (request, reason);
  return sw_demo_do (demo, step, request, error);
}

/* --- the course --- */

static gboolean
do_open (SwDemo *demo, const SwDemoStep *step, GError **error)
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

static gboolean
do_consent (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_CONSENT);
  SwConsent *consent = sw_new (SW_FACT_CONSENT, SwConsent);

  consent->course = step->dog->course;
  consent->state = SW_CONSENT_GIVEN;
  consent->signer = dup_arg (step, "client");
  consent->day = step->when.day;
  consent->minute = step->when.minute;
  consent->sheet_version = g_strdup ("1");
  consent->off_label = 1;
  consent->points = SW_CONSENT_ALL_POINTS;
  sw_request_add (request, consent);
  return sw_demo_do (demo, step, request, error);
}

static gboolean
do_sign (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const SwWeight *weight = dossier ? sw_facts_last (&dossier->facts, SW_FACT_WEIGHT) : NULL;
  SwDay treat;

  if (dossier == NULL || !day_of (demo, step, "treat", &treat, error))
    return FALSE;
  return sw_demo_do (demo, step,
                     sw_request_sign_plan (sw_demo_person (demo, step, SW_ACT_SIGN_PLAN), step->dog->patient, step->dog->course,
                                           treat, weight ? weight->fact.id : 0, sw_demo_arg (step, "choices")),
                     error);
}

static gboolean
do_move (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  const char *way = sw_demo_arg (step, "way");
  SwRequest *request;
  SwDay treat;

  if (!day_of (demo, step, "treat", &treat, error))
    return FALSE;
  request = sw_request_move_day (sw_demo_person (demo, step, SW_ACT_SIGN_PLAN), step->dog->patient, step->dog->course, treat,
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
static gboolean
do_dose (SwDemo *demo, const SwDemoStep *step, GError **error)
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
                         sw_request_tick (sw_demo_person (demo, step, SW_ACT_RECORD_DOSE), step->dog->patient, dose->dose, 0,
                                          states[i].state, given, sw_demo_arg (step, "told-by")),
                         error);
  return sw_demo_fail (demo, step, error, "was= is given, late, missed or vomited.");
}

static gboolean
tell_dose (SwDemo *demo, const SwDemoStep *step, const SwDosePlan *dose, GError **error)
{
  const char *told_by = sw_demo_arg (step, "told-by");

  return sw_demo_do (demo, step,
                     sw_request_tick (sw_demo_person (demo, step, SW_ACT_RECORD_DOSE), step->dog->patient, dose->dose, 0,
                                      SW_DOSE_GIVEN, SW_NO_MOMENT, told_by ? told_by : "the client, by phone"),
                     error);
}

/* All doses of this day due by now and not told yet were given. */
static gboolean
do_tell (SwDemo *demo, const SwDemoStep *step, GError **error)
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

/* replace DAY HH:MM due=20:00 substance=S at=HH:MM: the vet orders another in place of a lost dose of this day or (of=DAY) another. */
static gboolean
do_replace (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_desk_load_dossier (demo->desk, step->dog->patient, error);
  const char *due = sw_demo_arg (step, "due"), *at = sw_demo_arg (step, "at");
  SwMoment when = { step->when.day, 0 };
  SwDemoStep of = *step;
  const SwDosePlan *dose;
  int minute = 0;

  if (dossier == NULL || (sw_demo_arg (step, "of") != NULL && !day_of (demo, step, "of", &of.when.day, error)))
    return FALSE;
  if (at == NULL || !sw_time_parse (at, &when.minute, NULL) || due == NULL || !sw_time_parse (due, &minute, NULL)
      || (dose = due_dose (dossier, &of, sw_demo_arg (step, "substance"), minute)) == NULL)
    return sw_demo_fail (demo, step, error, "no dose is due then.");
  return sw_demo_do (demo, step,
                     sw_request_order_replacement (sw_demo_person (demo, step, SW_ACT_ORDER_REPLACEMENT), step->dog->patient,
                                                   dose->dose, when),
                     error);
}

/* --- after --- */

static gboolean
do_contact (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_CONTACT);
  SwContact *contact = sw_new (SW_FACT_CONTACT, SwContact);

  contact->course = step->dog->course;
  contact->day = step->when.day;
  contact->minute = step->when.minute;
  contact->reached = g_strcmp0 (sw_demo_arg (step, "reached"), "yes") == 0;
  contact->note = dup_arg (step, "text");
  sw_request_add (request, contact);
  return sw_demo_do (demo, step, request, error);
}

static const char *const ends[SW_N_ENDS + 1] = { "completed", "died", "euthanised", "lost", "withdrawn", "stopped", "transferred",
                                                 NULL };
static const char *const causes[SW_N_DEATH_CAUSES + 1] = { "tumour", "treatment", "other", "unknown", NULL };

static gboolean
do_end (SwDemo *demo, const SwDemoStep *step, GError **error)
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
  request = sw_request_end_course (sw_demo_person (demo, step, SW_ACT_END_COURSE), step->dog->patient, step->dog->course,
                                   (SwEnd) end, cause < 0 ? SW_UNKNOWN : cause, step->when.day, TRUE);
  sw_request_set_vet_orders (request, sw_demo_arg (step, "orders"));
  sw_request_set_reason (request, sw_demo_arg (step, "text"));
  return sw_demo_do (demo, step, request, error);
}

static gboolean
do_set (SwDemo *demo, const SwDemoStep *step, GError **error)
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

/* --- the verbs --- */

#define AT(hours, minutes) ((hours) * 60 + (minutes))

static const struct
{
  const char *verb;
  SwDemoPerform perform;
  int minute;
} verbs[] = {
  { "set", do_set, AT (8, 15) },
  { "register", do_register, AT (9, 0) },
  { "weigh", do_weigh, AT (9, 5) },
  { "tumour", do_tumour, AT (9, 10) },
  { "medicine", do_medicine, AT (9, 15) },
  { "work-up", do_work_up, AT (9, 20) },
  { "open", do_open, AT (9, 25) },
  { "reason", do_reason, AT (9, 27) },
  { "consent", do_consent, AT (9, 30) },
  { "sign", do_sign, AT (9, 35) },
  { "move", do_move, AT (10, 30) },
  { "dose", do_dose, AT (20, 10) },
  { "tell", do_tell, AT (20, 40) },
  { "replace", do_replace, AT (8, 30) },
  { "measure", sw_demo_measure, AT (9, 15) },
  { "ask", sw_demo_ask, AT (9, 25) },
  { "read-aloud", sw_demo_read_aloud, AT (9, 30) },
  { "release", sw_demo_release, AT (9, 35) },
  { "inject", sw_demo_inject, AT (10, 10) },
  { "observe", sw_demo_observe, AT (10, 40) },
  { "discharge", sw_demo_discharge, AT (12, 20) },
  { "visit", sw_demo_visit, AT (11, 0) },
  { "size", sw_demo_size, AT (11, 5) },
  { "score", sw_demo_score, AT (11, 15) },
  { "recur", sw_demo_recur, AT (11, 20) },
  { "contact", do_contact, AT (16, 30) },
  { "end", do_end, AT (17, 0) },
};

SwDemoPerform
sw_demo_verb (const char *verb, int *minute)
{
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (g_str_equal (verbs[i].verb, verb))
      {
        *minute = verbs[i].minute;
        return verbs[i].perform;
      }
  return NULL;
}

/* The first part holds the minute at which the macro begins. */
static const SwDemoPart prepare[] = { { "prepare", AT (9, 25) }, { "open", 0 }, { "consent", 5 }, { "sign", 10 }, { NULL, 0 } };
static const SwDemoPart come[] = { { "come", AT (9, 0) }, { "register", 0 }, { "weigh", 5 }, { NULL, 0 } };
static const SwDemoPart told[] = { { "told", AT (8, 40) }, { "tell", 0 }, { "tell", 12 * 60 }, { NULL, 0 } };
static const SwDemoPart ready[] = { { "ready", AT (8, 50) }, { "weigh", 0 }, { "measure", 5 }, { "ask", 15 }, { NULL, 0 } };
static const SwDemoPart treat[] = {
  { "treat", AT (9, 10) }, { "weigh", 0 },      { "measure", 5 },   { "ask", 15 },      { "read-aloud", 20 }, { "release", 25 },
  { "inject", 60 },        { "observe", 90 },   { "observe", 120 }, { "observe", 150 }, { "observe", 180 },   { "discharge", 190 },
  { NULL, 0 },
};

const SwDemoPart *
sw_demo_macro (const char *verb)
{
  static const SwDemoPart *const macros[] = { come, prepare, told, ready, treat };

  for (guint i = 0; i < G_N_ELEMENTS (macros); i++)
    if (g_str_equal (macros[i][0].verb, verb))
      return macros[i];
  return NULL;
}
