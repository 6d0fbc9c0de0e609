/* sw-interaction-rows.c: what each kind of row of the interactions document looks for
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-interaction.h"

#include "sw-definitions.h"
#include "sw-interaction-private.h"
#include "sw-suitability-private.h"

#include <glib/gi18n-lib.h>

/* Together: two medicines on one day, a medicine in a dog with a disease, or one medicine at all */

static SwFindingCode
code_of_level (SwSeverity level)
{
  switch (level)
    {
    case SW_MEETS:
    case SW_NOTE:
      return SW_FINDING_MEDICINE_NOTED;
    case SW_VET_DECIDES:
      return SW_FINDING_MEDICINE_VET_DECIDES;
    case SW_NOT_KNOWN:
    case SW_STOP:
      return SW_FINDING_MEDICINE_STOP;
    case SW_N_SEVERITIES:
      break;
    }
  g_return_val_if_reached (SW_FINDING_MEDICINE_STOP);
}

/* Takes `what`. */
static void
add_together (SwCheck *check, const SwInteraction *row, const char *substance, char *what)
{
  SwFinding *finding = sw_check_add (check, code_of_level (row->level), row, substance);

  if (finding != NULL)
    sw_finding_text (finding, "what", what);
  g_free (what);
}

static void
pair_together (SwCheck *check, const SwInteraction *row, const SwExposure *a, const SwExposure *b)
{
  gboolean same = g_str_equal (a->substance, b->substance);
  g_autofree char *both = g_strdup_printf ("%s+%s", a->substance, b->substance);

  if (a == b || same || !sw_exposure_overlaps (a, b) || MIN (a->last, b->last) < check->c->now.day)
    return;
  /* translators: two medicines, or a medicine and a disease */
  add_together (check, row, both, g_strdup_printf (_("%s with %s"), a->substance, b->substance));
}

/* A class against itself names each pair once. */
static void
medicines_together (SwCheck *check, const SwInteraction *row)
{
  gboolean itself = row->a_is == row->b_is && g_str_equal (row->a, row->b);
  const SwExposure *a, *b;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    for (guint k = itself ? i : 0; (b = sw_check_next (check, row->b_is, row->b, &k)) != NULL;)
      pair_together (check, row, a, b);
}

static void
add_unanswered (SwCheck *check, const SwInteraction *row)
{
  const SwQuestion *question = sw_party_question (row->b);
  SwFinding *finding = sw_check_add_about (check, SW_FINDING_UNANSWERED, row, question->code);

  if (finding != NULL)
    sw_finding_text (finding, "fact", _(question->name));
}

static void
fact_together (SwCheck *check, const SwInteraction *row)
{
  SwFactHolds holds = sw_check_fact (check, row->b, NULL);
  const SwExposure *a;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    {
      g_autofree char *fact = sw_party_words (row->b);

      if (!sw_exposure_is_active (a, check->c->now.day))
        continue;
      if (holds == SW_FACT_ANSWER_HOLDS)
        add_together (check, row, a->substance, g_strdup_printf (_("%s with %s"), a->substance, fact));
      else if (holds == SW_FACT_ANSWER_MISSING && row->level > SW_NOTE)
        add_unanswered (check, row);
    }
}

static void
alone (SwCheck *check, const SwInteraction *row, SwParty is, const char *code)
{
  const SwExposure *x;

  for (guint i = 0; (x = sw_check_next (check, is, code, &i)) != NULL;)
    if (sw_exposure_is_active (x, check->c->now.day))
      add_together (check, row, x->substance, g_strdup (x->substance));
}

void
sw_check_together (SwCheck *check, const SwInteraction *row)
{
  if (row->b_is == SW_PARTY_FACT)
    fact_together (check, row);
  else if (row->b_is == SW_PARTY_NOTHING)
    alone (check, row, row->a_is, row->a);
  else if (row->a_is == SW_PARTY_NOTHING)
    alone (check, row, row->b_is, row->b);
  else
    medicines_together (check, row);
}

/* Washout: days free of the one before the other */

gint64
sw_washout_days (const SwCase *c, const char *substance, gint64 otherwise)
{
  const SwMedicine *medicine = sw_books_medicine (c->books, substance);
  gint64 days = medicine != NULL && medicine->washout_days != SW_UNKNOWN ? medicine->washout_days : otherwise;
  g_autofree char *key = g_strconcat ("washout.", substance, NULL);

  /* SW_UNKNOWN is under every number, so a practice's own figure stands where the documents have none. */
  return MAX (days, sw_practice_setting_int (c->practice, key, SW_UNKNOWN));
}

/* The longest washout known in the class of row->b: until then an NSAID without a name may still act. */
static gint64
longest_washout (const SwCheck *check, const SwInteraction *row)
{
  const GPtrArray *medicines = sw_books_medicines (check->c->books);
  gint64 longest = row->days;

  for (guint i = 0; i < medicines->len; i++)
    {
      const SwMedicine *medicine = medicines->pdata[i];

      if (row->b_is == SW_PARTY_CLASS && sw_medicine_has_class (medicine, row->b))
        longest = MAX (longest, sw_washout_days (check->c, medicine->head.id, SW_UNKNOWN));
    }
  return longest;
}

gboolean
sw_washout_of (const SwCase *c, const SwMedicineTaken *taken, gint64 *days, SwDay *open)
{
  SwCheck check = { .c = c, .document = sw_books_interactions (c->books) };
  gboolean named = !g_str_equal (taken->substance, SW_UNKNOWN_NSAID);

  *days = SW_UNKNOWN;
  for (guint i = 0; check.document != NULL && i < check.document->rows->len; i++)
    {
      const SwInteraction *row = check.document->rows->pdata[i];

      if (row->when != SW_WHEN_WASHOUT)
        continue;
      if (sw_check_is_party (&check, row->b_is, row->b, taken->substance))
        *days = MAX (*days, named ? sw_washout_days (c, taken->substance, row->days) : longest_washout (&check, row));
      else if (sw_check_is_party (&check, row->a_is, row->a, taken->substance))
        *days = MAX (*days, sw_washout_days (c, taken->substance, SW_UNKNOWN));
    }
  *open = *days != SW_UNKNOWN ? sw_day_add_days (taken->last_day, *days) : SW_NO_DAY;
  return *days != SW_UNKNOWN;
}

/* The figure behind a washout: the medicine's own, else the row's. */
static void
set_washout_basis (const SwCheck *check, SwFinding *finding, const SwInteraction *row, const char *substance)
{
  const SwMedicine *medicine = sw_books_medicine (check->c->books, substance);
  const SwFigure *own = medicine != NULL ? sw_document_figure (&medicine->head, "washout") : NULL;
  const SwFigure *figure = own != NULL ? own : row->days_figure;
  const SwDocumentHead *head = own != NULL ? &medicine->head : &check->document->head;

  if (figure != NULL)
    sw_finding_basis (finding, sw_document_source_title (head, figure), sw_figure_mark_code (figure->mark));
}

static void
washout_before (SwCheck *check, const SwInteraction *row, const SwExposure *a, const SwExposure *b)
{
  gboolean named = !g_str_equal (b->substance, SW_UNKNOWN_NSAID);
  gint64 days = named ? sw_washout_days (check->c, b->substance, row->days) : longest_washout (check, row);
  SwFinding *finding;

  /* What goes on has no washout yet: it is found as a medicine given together with the other. */
  if (b->last == SW_GOES_ON || days == SW_UNKNOWN || sw_exposure_gap (b, a) >= days)
    return;
  finding = sw_check_add (check, named ? SW_FINDING_WASHOUT_BEFORE : SW_FINDING_WASHOUT_NOT_KNOWN, row, b->substance);
  if (finding == NULL)
    return;
  set_washout_basis (check, finding, row, b->substance);
  sw_finding_text (finding, "substance", b->substance);
  sw_finding_text (finding, "other", a->substance);
  sw_finding_day (finding, "last", b->last);
  sw_finding_count (finding, "days", days);
  sw_finding_day (finding, "value", a->first);
  sw_check_set_day_zero (check, finding, a->first, b->last + days);
}

/* After a corticosteroid its own document may ask for longer than the NSAID's: a depot acts for weeks. */
static void
washout_after (SwCheck *check, const SwInteraction *row, const SwExposure *a, const SwExposure *b)
{
  gboolean named = !g_str_equal (b->substance, SW_UNKNOWN_NSAID);
  gint64 days = named ? sw_washout_days (check->c, b->substance, row->days) : longest_washout (check, row);
  gint64 own = sw_washout_days (check->c, a->substance, SW_UNKNOWN);
  const char *asks_for = own > days ? a->substance : b->substance;
  SwFinding *finding;

  days = MAX (days, own);
  if (days == SW_UNKNOWN || sw_exposure_gap (a, b) >= days)
    return;
  finding = sw_check_add (check, SW_FINDING_WASHOUT_AFTER, row, b->substance);
  if (finding == NULL)
    return;
  set_washout_basis (check, finding, row, asks_for);
  sw_finding_text (finding, "substance", b->substance);
  sw_finding_text (finding, "other", a->substance);
  sw_finding_day (finding, "last", a->last);
  sw_finding_count (finding, "days", days);
  sw_finding_day (finding, "value", b->first);
  sw_finding_day (finding, "limit", a->last + days);
}

/* Of two medicines from elsewhere only the later is looked at, while it goes on or is still to come. */
void
sw_check_washout (SwCheck *check, const SwInteraction *row)
{
  const SwExposure *a, *b;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    for (guint k = 0; (b = sw_check_next (check, row->b_is, row->b, &k)) != NULL;)
      {
        gboolean elsewhere = a->taken != NULL && b->taken != NULL;

        if (b->first <= a->last && !elsewhere)
          washout_before (check, row, a, b);
        else if (b->first > a->last && (!elsewhere || sw_exposure_is_active (b, check->c->now.day)))
          washout_after (check, row, a, b);
      }
}

/* Within: a dated fact, or another medicine, too near to the other party */

/* Days from a day to the nearest day of an exposure; 0 inside it. */
static gint64
distance (const SwExposure *x, SwDay day)
{
  if (day < x->first)
    return x->first - day;
  return day > x->last ? day - x->last : 0;
}

static void
fact_within (SwCheck *check, const SwInteraction *row, const SwExposure *a, const SwAnswer *answer)
{
  gboolean dated = answer->value != SW_UNKNOWN;
  g_autofree char *words = sw_party_words (row->b);
  SwFinding *finding;

  if (dated && distance (a, answer->value) >= row->days)
    return;
  finding = sw_check_add (check, dated ? SW_FINDING_TOO_NEAR : SW_FINDING_TOO_NEAR_NO_DATE, row, a->substance);
  if (finding == NULL)
    return;
  sw_finding_text (finding, "what", words);
  sw_finding_text (finding, "other", a->substance);
  sw_finding_count (finding, "days", row->days);
  if (!dated)
    return;
  sw_finding_day (finding, "value", answer->value);
  sw_finding_day (finding, "first", a->first);
  sw_check_set_last (finding, "last", a->last);
  sw_check_set_day_zero (check, finding, a->first, answer->value + row->days);
}

static void
medicines_within (SwCheck *check, const SwInteraction *row, const SwExposure *a)
{
  const SwExposure *b;

  for (guint k = 0; (b = sw_check_next (check, row->b_is, row->b, &k)) != NULL;)
    {
      g_autofree char *both = g_strdup_printf ("%s+%s", a->substance, b->substance);
      gint64 gap = b->first > a->last ? sw_exposure_gap (a, b) : sw_exposure_gap (b, a);

      if (a != b && gap < row->days && MAX (a->last, b->last) >= check->c->now.day)
        add_together (check, row, both, g_strdup_printf (_("%s with %s"), a->substance, b->substance));
    }
}

void
sw_check_within (SwCheck *check, const SwInteraction *row)
{
  const SwAnswer *answer = NULL;
  SwFactHolds holds = row->b_is == SW_PARTY_FACT ? sw_check_fact (check, row->b, &answer) : SW_FACT_ANSWER_OTHER;
  const SwExposure *a;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    if (row->b_is != SW_PARTY_FACT)
      medicines_within (check, row, a);
    else if (holds == SW_FACT_ANSWER_HOLDS)
      fact_within (check, row, a, answer);
    else if (holds == SW_FACT_ANSWER_MISSING && sw_exposure_is_active (a, check->c->now.day))
      add_unanswered (check, row);
}

/* Taken: the same kind from elsewhere, lately or still */

/* The protocol lists both as one another's substitutes, so their doses add up. */
static gboolean
are_substitutes (const SwCheck *check, const char *a, const char *b)
{
  const SwProtocol *protocol = sw_case_protocol (check->c);

  for (guint i = 0; protocol != NULL && i < protocol->groups->len; i++)
    if (sw_group_alternative (protocol->groups->pdata[i], a) != NULL
        && sw_group_alternative (protocol->groups->pdata[i], b) != NULL)
      return TRUE;
  return FALSE;
}

/* What is taken and what is planned on one day; FALSE where dose or weight is not known or the two don't add up as one
 * substance does. */
static gboolean
total_a_day (const SwCheck *check, const SwExposure *a, const SwExposure *b, SwRatio *mg_per_kg)
{
  const SwWeight *weight = sw_facts_last (&check->c->dossier->facts, SW_FACT_WEIGHT);
  SwRatio taken, planned = sw_ratio (sw_exposure_overlaps (a, b) ? a->ug_per_kg_day : 0, SW_PER_MILLE);

  if (weight == NULL || b->taken->dose_ug == SW_UNKNOWN || b->taken->per_day_milli == SW_UNKNOWN
      || a->ug_per_kg_day == SW_UNKNOWN || !are_substitutes (check, a->substance, b->substance))
    return FALSE;
  /* ug x doses a day / (1000 x g of body weight) is mg per kg and day: thousandths of doses against thousands of
   * grams. */
  taken = sw_ratio (b->taken->dose_ug, SW_PER_MILLE);
  return sw_ratio_mul (taken, sw_ratio (b->taken->per_day_milli, weight->grams), &taken)
         && sw_ratio_add (taken, planned, mg_per_kg);
}

static void
add_taken (SwCheck *check, const SwInteraction *row, const SwExposure *a, const SwExposure *b)
{
  gboolean steroid = sw_books_is_class (check->c->books, a->substance, SW_CLASS_CORTICOSTEROID);
  SwFindingCode code = steroid ? SW_FINDING_CORTICOSTEROID_TAKEN : SW_FINDING_SAME_KIND_TAKEN;
  SwFinding *finding = sw_check_add (check, code, row, b->substance);
  SwRatio total;

  if (finding == NULL)
    return;
  sw_finding_text (finding, "substance", b->substance);
  sw_finding_text (finding, "other", a->substance);
  sw_check_set_last (finding, "last", b->last);
  sw_finding_count (finding, "limit", row->days);
  if (!steroid)
    return;
  if (total_a_day (check, a, b, &total))
    sw_finding_ratio (finding, "total", total.num, total.den, _("mg/kg a day"));
  else
    sw_finding_text (finding, "total", _("not known"));
}

void
sw_check_taken (SwCheck *check, const SwInteraction *row)
{
  const SwExposure *a, *b;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    for (guint k = 0; (b = sw_check_next (check, row->b_is, row->b, &k)) != NULL;)
      if (a->taken == NULL && b->taken != NULL && b->first <= a->last && sw_exposure_gap (b, a) <= row->days)
        add_taken (check, row, a, b);
}

/* Double: the same kind from elsewhere while it is planned */

void
sw_check_double (SwCheck *check, const SwInteraction *row)
{
  const SwExposure *a, *b;

  for (guint i = 0; (a = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    for (guint k = 0; (b = sw_check_next (check, row->b_is, row->b, &k)) != NULL;)
      {
        SwFinding *finding;

        if (a->taken != NULL || b->taken == NULL || !sw_exposure_overlaps (a, b))
          continue;
        finding = sw_check_add (check, SW_FINDING_DOUBLED, row, b->substance);
        if (finding == NULL)
          continue;
        sw_finding_text (finding, "substance", b->substance);
        sw_finding_text (finding, "other", a->substance);
        sw_finding_day (finding, "first", a->first);
        sw_check_set_last (finding, "last", b->last);
      }
}

/* Packs: what else is in them */

static void
add_pack (SwCheck *check, const SwInteraction *row, SwFindingCode code, const char *substance)
{
  SwFinding *finding = sw_check_add (check, code, row, substance);

  if (finding != NULL)
    sw_finding_text (finding, "substance", substance);
}

void
sw_check_mixed (SwCheck *check, const SwInteraction *row)
{
  const SwExposure *x;

  for (guint i = 0; (x = sw_check_next (check, row->a_is, row->a, &i)) != NULL;)
    {
      if (x->taken == NULL || !sw_exposure_is_active (x, check->c->now.day))
        continue;
      if (x->taken->single_substance == SW_UNKNOWN)
        add_pack (check, row, SW_FINDING_MIXED_NOT_KNOWN, x->substance);
      else if (x->taken->single_substance == 0)
        add_pack (check, row, SW_FINDING_MIXED_PACK, x->substance);
    }
}

static gboolean
may_hold_xylitol (const SwMedicineTaken *taken)
{
  return (taken->form == SW_FORM_LIQUID || taken->form == SW_FORM_SOFT_TABLET) && taken->xylitol_free != 1;
}

void
sw_check_xylitol (SwCheck *check, const SwInteraction *row)
{
  gboolean read = sw_check_fact (check, "packs-xylitol/read-free", NULL) == SW_FACT_ANSWER_HOLDS;

  for (guint i = 0; i < check->exposures->len; i++)
    {
      const SwExposure *x = &g_array_index (check->exposures, SwExposure, i);

      if (!sw_exposure_is_active (x, check->c->now.day))
        continue;
      if (x->taken != NULL && may_hold_xylitol (x->taken))
        add_pack (check, row, SW_FINDING_XYLITOL, x->substance);
      else if (x->taken == NULL && x->liquid && !read)
        add_pack (check, row, SW_FINDING_XYLITOL_PLANNED, x->substance);
    }
}
