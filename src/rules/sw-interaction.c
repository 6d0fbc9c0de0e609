/* sw-interaction.c: the rows of the interactions document over everything the dog takes, took and will take
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-interaction.h"

#include "sw-interaction-private.h"
#include "sw-lead-in.h"
#include "sw-suitability-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

gboolean
sw_check_is_party (const SwCheck *check, SwParty is, const char *code, const char *substance)
{
  switch (is)
    {
    case SW_PARTY_CLASS:
      return sw_books_is_class (check->c->books, substance, code);
    case SW_PARTY_SUBSTANCE:
      return g_str_equal (substance, code);
    case SW_PARTY_FACT:
    case SW_PARTY_NOTHING:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

const SwExposure *
sw_check_next (const SwCheck *check, SwParty is, const char *code, guint *position)
{
  while (*position < check->exposures->len)
    {
      const SwExposure *exposure = &g_array_index (check->exposures, SwExposure, (*position)++);

      if (sw_check_is_party (check, is, code, exposure->substance))
        return exposure;
    }
  return NULL;
}

const SwQuestion *
sw_party_question (const char *party)
{
  g_autofree char *code = g_strndup (party, strcspn (party, "/"));

  return sw_question (code);
}

static const char *
party_answer (const char *party)
{
  const char *slash = strchr (party, '/');

  return slash != NULL ? slash + 1 : "";
}

char *
sw_party_words (const char *party)
{
  const SwQuestion *question = sw_party_question (party);
  const SwChoice *choice = question != NULL ? sw_question_choice (question, party_answer (party)) : NULL;

  if (choice == NULL)
    return g_strdup (party);
  /* "diabetes mellitus", not "diabetes mellitus: yes" */
  return g_str_equal (choice->code, "yes") ? g_strdup (_(question->name))
                                           : g_strdup_printf ("%s: %s", _(question->name), _(choice->name));
}

static SwFactHolds
holds_for (const SwCheck *check, const char *party, gint64 tumour, const SwAnswer **answer)
{
  const SwQuestion *question = sw_party_question (party);
  const SwAnswer *given = question != NULL ? sw_case_answer (check->c, tumour, question) : NULL;

  if (given == NULL)
    return SW_FACT_ANSWER_MISSING;
  if (!g_str_equal (given->answer, party_answer (party)))
    return SW_FACT_ANSWER_OTHER;
  if (answer != NULL)
    *answer = given;
  return SW_FACT_ANSWER_HOLDS;
}

SwFactHolds
sw_check_fact (const SwCheck *check, const char *party, const SwAnswer **answer)
{
  const SwQuestion *question = sw_party_question (party);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (check->c->dossier, check->c->course);
  SwFactHolds worst = SW_FACT_ANSWER_MISSING;

  if (question == NULL || question->of == SW_ASKED_OF_DOG)
    return holds_for (check, party, 0, answer);
  for (guint i = 0; i < tumours->len; i++)
    {
      SwFactHolds one = holds_for (check, party, g_array_index (tumours, gint64, i), answer);

      if (one == SW_FACT_ANSWER_HOLDS)
        return one;
      if (one == SW_FACT_ANSWER_OTHER)
        worst = one;
    }
  return worst;
}

static gboolean
is_there (const SwCheck *check, SwFindingCode code, const char *about)
{
  for (guint i = 0; i < check->findings->len; i++)
    {
      const SwFinding *finding = check->findings->pdata[i];

      if (finding->code == code && g_strcmp0 (finding->about, about) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The document writes whole sentences; in a finding they follow a colon and its own full stop. */
static void
set_reason (SwFinding *finding, const char *reason)
{
  g_autofree char *text = g_strdup (reason);

  if (g_str_has_suffix (text, "."))
    text[strlen (text) - 1] = '\0';
  sw_finding_text (finding, "reason", text);
}

SwFinding *
sw_check_add_about (SwCheck *check, SwFindingCode code, const SwInteraction *row, const char *about)
{
  SwFinding *finding;

  if (is_there (check, code, about))
    return NULL;
  finding = sw_finding_new (code);
  finding->about = g_strdup (about);
  if (finding->severity != SW_NOT_KNOWN)
    finding->severity = row->level;
  sw_finding_basis (finding, sw_document_source_title (&check->document->head, row->figure),
                    sw_figure_mark_code (row->figure->mark));
  set_reason (finding, row->reason);
  g_ptr_array_add (check->findings, finding);
  return finding;
}

SwFinding *
sw_check_add (SwCheck *check, SwFindingCode code, const SwInteraction *row, const char *substance)
{
  g_autofree char *about = g_strdup_printf ("%s/%s", row->id, substance);

  return sw_check_add_about (check, code, row, about);
}

void
sw_check_set_day_zero (const SwCheck *check, SwFinding *finding, SwDay first, SwDay open)
{
  gint64 wait = first != SW_NO_DAY ? MAX (open - first, 0) : 0;

  sw_finding_day (finding, "limit", open);
  sw_finding_day (finding, "date", check->treat_day + wait);
}

void
sw_check_set_last (SwFinding *finding, const char *name, SwDay last)
{
  if (last == SW_GOES_ON)
    sw_finding_text (finding, name, _("today and on"));
  else
    sw_finding_day (finding, name, last);
}

static void
check_row (SwCheck *check, const SwInteraction *row)
{
  switch (row->when)
    {
    case SW_WHEN_TOGETHER:
      sw_check_together (check, row);
      break;
    case SW_WHEN_WASHOUT:
      sw_check_washout (check, row);
      break;
    case SW_WHEN_WITHIN:
      sw_check_within (check, row);
      break;
    case SW_WHEN_TAKEN:
      sw_check_taken (check, row);
      break;
    case SW_WHEN_DOUBLE:
      sw_check_double (check, row);
      break;
    case SW_WHEN_MIXED:
      sw_check_mixed (check, row);
      break;
    case SW_WHEN_XYLITOL:
      sw_check_xylitol (check, row);
      break;
    case SW_N_WHENS:
      break;
    }
}

static void
check_history (SwCheck *check)
{
  const SwQuestion *question = sw_question ("medicine-history");
  const SwAnswer *answer = sw_case_answer (check->c, 0, question);
  gboolean complete = answer != NULL && g_str_equal (answer->answer, "complete");
  SwFinding *finding = sw_finding_new (complete ? SW_FINDING_MEETS : SW_FINDING_HISTORY_INCOMPLETE);

  finding->about = g_strdup (question->code);
  if (complete)
    {
      sw_finding_text (finding, "fact", _(question->name));
      sw_finding_text (finding, "value", _(sw_question_choice (question, answer->answer)->name));
    }
  g_ptr_array_add (check->findings, finding);
}

static gboolean
is_listed (const SwCheck *check, const char *substance)
{
  if (sw_books_medicine (check->c->books, substance) != NULL)
    return TRUE;
  for (guint i = 0; i < check->document->classes->len; i++)
    {
      const SwMedicineClass *listed = check->document->classes->pdata[i];

      if (listed->substances != NULL && g_strv_contains ((const char *const *) listed->substances, substance))
        return TRUE;
    }
  return FALSE;
}

/* A name that no document knows is checked against nothing, and that is said. */
static void
check_names (SwCheck *check)
{
  for (guint i = 0; i < check->exposures->len; i++)
    {
      const SwExposure *exposure = &g_array_index (check->exposures, SwExposure, i);
      SwFinding *finding;

      if (!sw_exposure_is_active (exposure, check->c->now.day) || is_listed (check, exposure->substance)
          || is_there (check, SW_FINDING_NOT_CHECKED, exposure->substance))
        continue;
      finding = sw_finding_new (SW_FINDING_NOT_CHECKED);
      finding->about = g_strdup (exposure->substance);
      sw_finding_text (finding, "substance", exposure->substance);
      g_ptr_array_add (check->findings, finding);
    }
}

static GPtrArray *
check_all (const SwCase *c, SwDay treat_day, const char *choices, gboolean draft)
{
  SwCheck check = { c, sw_books_interactions (c->books), treat_day, NULL, sw_findings_new () };

  check_history (&check);
  if (check.document == NULL)
    {
      g_ptr_array_add (check.findings, sw_finding_new (SW_FINDING_NO_INTERACTIONS));
      return check.findings;
    }
  check.exposures = sw_exposures (c, treat_day, choices, draft);
  for (guint i = 0; i < check.document->rows->len; i++)
    check_row (&check, check.document->rows->pdata[i]);
  check_names (&check);
  g_array_unref (check.exposures);
  return check.findings;
}

GPtrArray *
sw_interactions_of_plan (const SwCase *c, SwDay treat_day, const char *choices)
{
  return check_all (c, treat_day, choices, TRUE);
}

GPtrArray *
sw_interactions_check (const SwCase *c)
{
  const SwPlan *plan = sw_case_plan (c);
  const SwProtocol *protocol = sw_case_protocol (c);
  SwDay earliest = c->now.day - (protocol != NULL ? sw_lead_in_first_day (protocol) : 0);

  if (plan != NULL)
    return check_all (c, plan->treat_day, plan->choices, FALSE);
  return check_all (c, earliest, NULL, TRUE);
}
