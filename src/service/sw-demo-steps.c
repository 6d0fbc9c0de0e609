/* sw-demo-steps.c: the verbs of the demo's script: registering and work-up
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#include "sw-quantity.h"
#include "sw-question.h"
#include "sw-region.h"

/* --- registering --- */

static SwPatientDetails *
patient_details (SwDemo *demo, const SwDemoStep *step, gint64 client, gint64 patient)
{
  SwPatientDetails *details = sw_new (SW_FACT_PATIENT_DETAILS, SwPatientDetails);
  const char *sex = sw_demo_arg (step, "sex"), *neutered = sw_demo_arg (step, "neutered");

  details->fact.patient = patient;
  details->client = client;
  details->name = sw_demo_dup_arg (step, "name");
  details->species = g_strdup (sw_demo_arg (step, "species") ? sw_demo_arg (step, "species") : "dog");
  details->breed = sw_demo_dup_arg (step, "breed");
  details->sex = g_strcmp0 (sex, "male") == 0 ? SW_SEX_MALE : SW_SEX_FEMALE;
  details->neutered = g_strcmp0 (neutered, "yes") == 0;
  details->born = sw_demo_day_if_said (demo, step, "born");
  details->born_exact = 1;
  details->markings = sw_demo_dup_arg (step, "markings");
  return details;
}

gboolean
sw_demo_register (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_REGISTER_PATIENT);
  SwClientDetails *client = sw_new (SW_FACT_CLIENT_DETAILS, SwClientDetails);
  g_autoptr (SwReply) reply = NULL;
  gint64 patient;

  client->client = sw_request_add (request, sw_new (SW_FACT_CLIENT, SwClient));
  client->name = sw_demo_dup_arg (step, "client");
  client->phone = sw_demo_dup_arg (step, "phone");
  client->address = sw_demo_dup_arg (step, "address");
  sw_request_add (request, client);
  patient = sw_request_add (request, sw_new (SW_FACT_PATIENT, SwPatient));
  sw_request_add (request, patient_details (demo, step, client->client, patient));
  reply = sw_demo_perform (demo, step, request, error);
  if (reply == NULL)
    return FALSE;
  step->dog->patient = reply->patient;
  return TRUE;
}

gboolean
sw_demo_weigh (SwDemo *demo, const SwDemoStep *step, GError **error)
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
  const char *region = sw_demo_arg (step, "region"), *side = sw_demo_arg (step, "side"),
             *depth = sw_demo_arg (step, "depth");
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
gboolean
sw_demo_add_tumour (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_REGISTER_TUMOUR);
  SwTumourDetails *details = sw_new (SW_FACT_TUMOUR_DETAILS, SwTumourDetails);
  SwDemoDog *dog = step->dog;
  g_autoptr (SwReply) reply = NULL;

  details->tumour = sw_request_add (request, sw_new (SW_FACT_TUMOUR, SwTumour));
  details->letter = dog->n_tumours;
  details->found = step->when.day;
  details->description = sw_demo_dup_arg (step, "text");
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
    answer->value = sw_demo_arg (step, on) ? sw_demo_day_if_said (demo, step, on) : step->when.day;
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

gboolean
sw_demo_work_up (SwDemo *demo, const SwDemoStep *step, GError **error)
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

gboolean
sw_demo_medicine (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_RECORD_MEDICINE_TAKEN);
  SwMedicineTaken *taken = sw_new (SW_FACT_MEDICINE_TAKEN, SwMedicineTaken);

  taken->substance = sw_demo_dup_arg (step, "substance");
  taken->first_day = sw_demo_day_if_said (demo, step, "first");
  taken->last_day = sw_demo_day_if_said (demo, step, "last");
  taken->form = SW_FORM_TABLET;
  taken->single_substance = 1;
  taken->note = sw_demo_dup_arg (step, "note");
  sw_request_add (request, taken);
  return sw_demo_do (demo, step, request, error);
}

gboolean
sw_demo_reason (SwDemo *demo, const SwDemoStep *step, GError **error)
{
  SwRequest *request = sw_demo_request (demo, step, SW_ACT_GIVE_REASON);
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);

  reason->course = step->dog->course;
  reason->tumour = sw_demo_tumour (step, sw_demo_arg (step, "tumour"));
  reason->finding = sw_demo_dup_arg (step, "finding");
  reason->about = sw_demo_dup_arg (step, "about");
  reason->reason = sw_demo_dup_arg (step, "text");
  sw_request_add (request, reason);
  return sw_demo_do (demo, step, request, error);
}
