/* sw-fact-validate.c: whether the values of a fact are possible at all
 *
 * Ranges and vocabularies are rows of tables; what hangs on two fields together is a short function for its kind.
 * What is possible but wrong for this dog is for rules to find, not for here.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-fact.h"

#include "sw-error.h"
#include "sw-finding.h"
#include "sw-quantity.h"
#include "sw-question.h"
#include "sw-region.h"
#include "sw-text.h"
#include "sw-values.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

typedef enum { SHOW_PLAIN, SHOW_LENGTH, SHOW_MASS, SHOW_DAY, SHOW_TIME, SHOW_DRUG, SHOW_CHOICE } Shown;

typedef struct
{
  int kind; /* SwFactKind, or ANY for every column of that name */
  const char *column;
  gint64 least, most;
  Shown shown;
  const char *name; /* what people call it */
} Range;

#define ANY (-1)
#define FLAG(column, name) { ANY, column, 0, 1, SHOW_CHOICE, name }
#define CHOICE(kind, column, count, name) { SW_FACT_##kind, column, 0, (count) - 1, SHOW_CHOICE, name }
#define DAY(column, name) { ANY, column, FIRST_DAY, LAST_DAY, SHOW_DAY, name }
#define DRUG(kind, column, name) { SW_FACT_##kind, column, 0, MOST_NL, SHOW_DRUG, name }

/* 1 January 1980 to 31 December 2199: no dog alive was born before, and a slip of the year is found. */
#define FIRST_DAY 3652
#define LAST_DAY 84005
/* The same bounds as where quantities are typed (domain 2). */
#define LEAST_LENGTH 50
#define MOST_LENGTH 30000
#define LEAST_GRAMS 500
#define MOST_GRAMS 120000
#define MOST_NL (100 * SW_NL_PER_ML)
#define LONGEST_TEXT 4000

static const Range ranges[] = {
  DAY ("day", N_("day")),
  DAY ("born", N_("day of birth")),
  DAY ("found", N_("day it was found")),
  DAY ("first_day", N_("first day")),
  DAY ("last_day", N_("last day")),
  DAY ("treat_day", N_("treatment day")),
  DAY ("moved_from", N_("day before the move")),
  DAY ("due_day", N_("day it is due")),
  DAY ("expiry", N_("expiry")),
  DAY ("cover_until", N_("last day of the cover")),
  { ANY, "minute", 0, SW_MINUTES_PER_DAY - 1, SHOW_TIME, N_("time") },
  { ANY, "due_minute", 0, SW_MINUTES_PER_DAY - 1, SHOW_TIME, N_("time it is due") },
  FLAG ("active", N_("works here")),
  FLAG ("neutered", N_("neutered")),
  FLAG ("born_exact", N_("day of birth is exact")),
  FLAG ("single_substance", N_("single substance")),
  FLAG ("xylitol_free", N_("no xylitol")),
  FLAG ("treat", N_("treated in this course")),
  FLAG ("off_label", N_("off-label parts agreed")),
  FLAG ("alone", N_("one person on duty")),
  FLAG ("outside", N_("outside the gate")),
  FLAG ("past_limit", N_("past the limit")),
  FLAG ("vomiting", N_("vomiting")),
  FLAG ("wound_open", N_("wound open")),
  FLAG ("counts_as_day_28", N_("counts as day 28")),
  FLAG ("new_tumour", N_("new tumour")),
  FLAG ("sampled", N_("sampled")),
  FLAG ("certain", N_("day is certain")),
  FLAG ("reached", N_("reached")),
  { SW_FACT_PERSON_DETAILS, "roles", 1, SW_ALL_ROLES, SHOW_CHOICE, N_("roles") },
  CHOICE (DOCUMENT, "doc_kind", SW_N_DOCUMENT_KINDS, N_("kind of document")),
  CHOICE (ADOPTION, "doc_kind", SW_N_DOCUMENT_KINDS, N_("kind of document")),
  CHOICE (PATIENT_DETAILS, "sex", SW_N_SEXES, N_("sex")),
  { SW_FACT_WEIGHT, "grams", LEAST_GRAMS, MOST_GRAMS, SHOW_MASS, N_("weight") },
  { SW_FACT_TUMOUR_DETAILS, "letter", 0, 26 * 27 - 1, SHOW_PLAIN, N_("letter") },
  CHOICE (TUMOUR_DETAILS, "region", SW_N_REGIONS, N_("region")),
  CHOICE (TUMOUR_DETAILS, "side", SW_N_SIDES, N_("side")),
  CHOICE (TUMOUR_DETAILS, "depth", SW_N_DEPTHS, N_("depth")),
  CHOICE (TUMOUR_DETAILS, "view", SW_N_VIEWS, N_("view")),
  { SW_FACT_TUMOUR_DETAILS, "x", 0, 1000, SHOW_PLAIN, N_("point on the outline") },
  { SW_FACT_TUMOUR_DETAILS, "y", 0, 1000, SHOW_PLAIN, N_("point on the outline") },
  { SW_FACT_MEDICINE_TAKEN, "dose_ug", 1, 100000000, SHOW_PLAIN, N_("dose in micrograms") },
  { SW_FACT_MEDICINE_TAKEN, "per_day_milli", 1, 24000, SHOW_PLAIN, N_("thousandths of a dose a day") },
  CHOICE (MEDICINE_TAKEN, "form", SW_N_FORMS, N_("form")),
  { SW_FACT_COURSE, "number", 1, 999, SHOW_PLAIN, N_("number of the course") },
  CHOICE (CONSENT, "state", SW_N_CONSENT_STATES, N_("consent")),
  { SW_FACT_CONSENT, "points", 0, SW_CONSENT_ALL_POINTS, SHOW_CHOICE, N_("points explained") },
  CHOICE (PLAN, "cause", SW_N_PLAN_CAUSES, N_("cause of the plan")),
  { SW_FACT_DOSE_PLAN, "day_number", -60, 365, SHOW_PLAIN, N_("day of the course") },
  { SW_FACT_DOSE_PLAN, "every_minutes", 60, 7 * SW_MINUTES_PER_DAY, SHOW_PLAIN, N_("minutes between doses") },
  { SW_FACT_DOSE_PLAN, "dose_ug", 1, 100000000, SHOW_PLAIN, N_("dose in micrograms") },
  { SW_FACT_DOSE_PLAN, "strength_ug", 1, 100000000, SHOW_PLAIN, N_("strength in micrograms") },
  { SW_FACT_DOSE_PLAN, "halves", 1, 40, SHOW_PLAIN, N_("half tablets") },
  DRUG (DOSE_PLAN, "volume_nl", N_("volume of the liquid")),
  CHOICE (DOSE_EVENT, "state", SW_N_DOSE_STATES, N_("state of the dose")),
  { SW_FACT_READING, "axis1", LEAST_LENGTH, MOST_LENGTH, SHOW_LENGTH, N_("length") },
  { SW_FACT_READING, "axis2", LEAST_LENGTH, MOST_LENGTH, SHOW_LENGTH, N_("width") },
  { SW_FACT_READING, "axis3", LEAST_LENGTH, MOST_LENGTH, SHOW_LENGTH, N_("height") },
  CHOICE (READ_ALOUD, "stage", SW_N_READ_ALOUD_STAGES, N_("stage of the reading aloud")),
  DRUG (RELEASE, "total_nl", N_("sum to draw")),
  DRUG (RELEASE_TUMOUR, "dose_nl", N_("dose")),
  DRUG (RELEASE_TUMOUR, "drawn_nl", N_("volume to draw")),
  DRUG (RELEASE_TUMOUR, "syringe_nl", N_("syringe")),
  { SW_FACT_RELEASE_TUMOUR, "volume_mm3", 0, 27000000, SHOW_PLAIN, N_("tumour volume in mm3") },
  DRUG (INJECTION_TUMOUR, "drawn_nl", N_("volume drawn")),
  DRUG (INJECTION_TUMOUR, "given_nl", N_("volume given")),
  { SW_FACT_VIAL, "strength_ug_ml", 1, 1000000, SHOW_PLAIN, N_("strength in micrograms per mL") },
  DRUG (VIAL, "left_nl", N_("volume left over")),
  { SW_FACT_OBSERVATION, "heart_rate", 20, 400, SHOW_PLAIN, N_("heart rate") },
  { SW_FACT_VISIT, "planned_day", 0, 3650, SHOW_PLAIN, N_("visit day") },
  CHOICE (VISIT, "mode", SW_N_VISIT_MODES, N_("kind of contact")),
  { SW_FACT_VISIT, "pain", 0, 10, SHOW_PLAIN, N_("pain score") },
  CHOICE (VISIT, "cover", SW_N_COVERS, N_("cover")),
  CHOICE (WOUND, "state", SW_N_WOUND_STATES, N_("state of the wound")),
  { SW_FACT_WOUND, "length", LEAST_LENGTH, MOST_LENGTH, SHOW_LENGTH, N_("length of the wound") },
  { SW_FACT_WOUND, "width", LEAST_LENGTH, MOST_LENGTH, SHOW_LENGTH, N_("width of the wound") },
  CHOICE (LOOK, "state", SW_N_LOOK_STATES, N_("what the site shows")),
  CHOICE (SCORE, "category", SW_N_CATEGORIES, N_("category")),
  { SW_FACT_SCORE, "baseline_sum", 0, 12 * MOST_LENGTH, SHOW_LENGTH, N_("baseline") },
  { SW_FACT_SCORE, "baseline_count", 0, 12, SHOW_PLAIN, N_("readings of the baseline") },
  { SW_FACT_SCORE, "smallest_sum", 0, 12 * MOST_LENGTH, SHOW_LENGTH, N_("smallest so far") },
  { SW_FACT_SCORE, "smallest_count", 0, 12, SHOW_PLAIN, N_("readings of the smallest") },
  { SW_FACT_SCORE, "now_sum", 0, 12 * MOST_LENGTH, SHOW_LENGTH, N_("size now") },
  { SW_FACT_SCORE, "now_count", 1, 12, SHOW_PLAIN, N_("readings now") },
  CHOICE (OVERALL, "category", SW_N_CATEGORIES, N_("category")),
  CHOICE (OVERALL, "non_targets", SW_N_NON_TARGETS, N_("tumours not injected")),
  { SW_FACT_RECURRENCE, "distance", 0, MOST_LENGTH, SHOW_LENGTH, N_("distance from the scar") },
  CHOICE (COURSE_END, "end", SW_N_ENDS, N_("end of the course")),
  CHOICE (COURSE_END, "cause", SW_N_DEATH_CAUSES, N_("cause of death")),
};

static const Range *
range_of (SwFactKind kind, const SwField *field)
{
  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    if ((ranges[i].kind == ANY || ranges[i].kind == (int) kind) && g_str_equal (ranges[i].column, field->column))
      return &ranges[i];
  return NULL;
}

static gboolean
refuse (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError **error, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (SW_ERROR, SW_ERROR_INPUT, format, arguments);
  va_end (arguments);
  return FALSE;
}

static char *
with_unit (char *number, const char *unit)
{
  char *text = g_strdup_printf ("%s %s", number, unit);

  g_free (number);
  return text;
}

static char *
shown (Shown how, gint64 value)
{
  switch (how)
    {
    case SHOW_LENGTH:
      return with_unit (sw_length_format (value), "mm");
    case SHOW_MASS:
      return with_unit (sw_ratio_format (sw_ratio (value, SW_GRAMS_PER_KG), 3), "kg");
    case SHOW_DRUG:
      return with_unit (sw_drug_volume_format (value), "mL");
    case SHOW_DAY:
      return value >= -LAST_DAY && value <= 2 * LAST_DAY ? sw_day_format (value)
                                                         : g_strdup_printf ("%" G_GINT64_FORMAT, value);
    case SHOW_TIME:
      return value >= 0 && value < SW_MINUTES_PER_DAY ? sw_time_format ((int) value)
                                                      : g_strdup_printf ("%" G_GINT64_FORMAT, value);
    case SHOW_PLAIN:
    case SHOW_CHOICE:
      return g_strdup_printf ("%" G_GINT64_FORMAT, value);
    }
  g_return_val_if_reached (NULL);
}

static gboolean
check_range (const Range *range, gint64 value, GError **error)
{
  g_autofree char *least = NULL, *most = NULL, *text = NULL;

  if (value >= range->least && value <= range->most)
    return TRUE;
  if (range->shown == SHOW_CHOICE)
    return refuse (error, _("“%s” has no choice number %" PRId64 ". Choose one that is offered."),
                   _(range->name), value);
  if (value == SW_UNKNOWN)
    return refuse (error, _("“%s” is missing. Fill it in."), _(range->name));
  least = shown (range->shown, range->least);
  most = shown (range->shown, range->most);
  text = shown (range->shown, value);
  return refuse (error, _("“%s” is %s, outside %s to %s. Look at what was typed."), _(range->name), text, least, most);
}

static gboolean
check_int (SwFactKind kind, const SwField *field, gint64 value, GError **error)
{
  const Range *range = range_of (kind, field);

  if (field->nullable && value == SW_UNKNOWN)
    return TRUE;
  if (range == NULL)
    return value != SW_UNKNOWN || refuse (error, _("“%s” is missing. Fill it in."), field->column);
  return check_range (range, value, error);
}

/* Columns whose empty text says something: nothing was found, nothing was ticked, nothing was typed. */
static gboolean
may_be_empty (SwFactKind kind, const SwField *field)
{
  static const char *const columns[] = { "gate", "ticks", "choices", "typed", "value", NULL };

  return field->nullable || g_strv_contains (columns, field->column);
}

static gboolean
check_text (SwFactKind kind, const SwField *field, const char *text, GError **error)
{
  if (text == NULL)
    return field->nullable || refuse (error, _("“%s” is missing. Fill it in."), field->column);
  if (!g_utf8_validate (text, -1, NULL))
    return refuse (error, _("“%s” is no readable text. Type it again."), field->column);
  if (g_utf8_strlen (text, -1) > LONGEST_TEXT)
    return refuse (error, _("“%s” has %ld letters; at most %d are kept. Shorten it."), field->column,
                   g_utf8_strlen (text, -1), LONGEST_TEXT);
  if (*text == '\0' && !may_be_empty (kind, field))
    return refuse (error, _("“%s” is empty. Fill it in."), field->column);
  return TRUE;
}

static gboolean
check_field (gconstpointer fact, const SwField *field, GError **error)
{
  SwFactKind kind = ((const SwFact *) fact)->kind;

  switch (field->type)
    {
    case SW_FIELD_INT:
      return check_int (kind, field, sw_fact_get_int (fact, field), error);
    case SW_FIELD_REF:
      return field->nullable || sw_fact_get_int (fact, field) != 0
             || refuse (error, _("“%s” is not chosen. Choose it."), field->column);
    case SW_FIELD_TEXT:
      return check_text (kind, field, sw_fact_get_text (fact, field), error);
    case SW_FIELD_BYTES:
      return sw_fact_get_bytes (fact, field) != NULL || refuse (error, _("“%s” is missing."), field->column);
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
check_owner (const SwFact *head, GError **error)
{
  const SwFactType *type = sw_fact_type (head->kind);

  if (type->scope == SW_SCOPE_PATIENT && head->kind != SW_FACT_PATIENT && head->patient == 0)
    return refuse (error, _("“%s” belongs to no patient. Open the patient first."), type->table);
  if (type->scope != SW_SCOPE_PATIENT && head->patient != 0)
    return refuse (error, _("“%s” belongs to no single patient. Record it for the practice."), type->table);
  if (type->entity && (head->replaces != 0 || head->withdrawn))
    return refuse (error, _("“%s” is never replaced. Correct its details instead."), type->table);
  if (head->withdrawn && head->replaces == 0)
    return refuse (error, _("Nothing is taken back by this row. Choose what is taken back."));
  return TRUE;
}

static gboolean
check_order (const char *first_name, SwDay first, const char *last_name, SwDay last, GError **error)
{
  g_autofree char *from = NULL, *to = NULL;

  if (first == SW_NO_DAY || last == SW_NO_DAY || first <= last)
    return TRUE;
  from = sw_day_format (first);
  to = sw_day_format (last);
  return refuse (error, _("“%s” (%s) lies after “%s” (%s). Look at both dates."), first_name, from, last_name, to);
}

static gboolean
check_patient (gconstpointer fact, GError **error)
{
  const SwPatientDetails *patient = fact;
  static const char *const species[] = { "dog", "cat", "horse", "other", NULL };

  return sw_code_index (species, patient->species) >= 0
         || refuse (error, _("“%s” is no known species. Choose dog, cat, horse or other."), patient->species);
}

static gboolean
check_answer (gconstpointer fact, GError **error)
{
  const SwAnswer *answer = fact;
  const SwQuestion *question = sw_question (answer->question);

  if (question == NULL)
    return refuse (error, _("There is no question “%s”."), answer->question);
  if (sw_question_choice (question, answer->answer) == NULL)
    return refuse (error, _("“%s” is no answer to “%s”. Choose one that is offered."), answer->answer,
                   _(question->name));
  if ((question->of == SW_ASKED_OF_TUMOUR) != (answer->tumour != 0))
    return refuse (error, question->of == SW_ASKED_OF_TUMOUR ? _("“%s” is asked of a tumour. Choose the tumour.")
                                                             : _("“%s” is asked of the dog, not of a tumour."),
                   _(question->name));
  if ((question->at == SW_ASKED_ON_TREATMENT_DAY) != (answer->course != 0))
    return refuse (error, question->at == SW_ASKED_AT_WORK_UP ? _("“%s” belongs to the work-up, not to one course.")
                                                              : _("“%s” is asked in a course. Open the course first."),
                   _(question->name));
  if (question->extra == SW_EXTRA_DATE && answer->value != SW_UNKNOWN
      && (answer->value < FIRST_DAY || answer->value > LAST_DAY))
    return refuse (error, _("The date of “%s” is no possible day. Look at what was typed."), _(question->name));
  return TRUE;
}

static gboolean
check_reason (gconstpointer fact, GError **error)
{
  const SwReason *reason = fact;
  return sw_finding_from_code (reason->finding) >= 0 || refuse (error, _("There is no finding “%s”."), reason->finding);
}

static gboolean
check_dose_event (gconstpointer fact, GError **error)
{
  const SwDoseEvent *event = fact;
  gboolean has_time = event->day != SW_NO_DAY && event->minute != SW_UNKNOWN;

  if ((event->state == SW_DOSE_GIVEN || event->state == SW_DOSE_LATE) && !has_time)
    return refuse (error, _("A dose that was given needs the day and time it was given. Fill them in."));
  return TRUE;
}

static gboolean
check_plan (gconstpointer fact, GError **error)
{
  const SwPlan *plan = fact;
  gboolean moved = plan->cause == SW_PLAN_MOVED || plan->cause == SW_PLAN_LED_IN_ANEW;

  return !moved || plan->moved_from != SW_NO_DAY
         || refuse (error, _("A moved plan needs the day it was moved from."));
}

/* What went past a gate or a limit is kept only with the vet's reason. */
static gboolean
check_outside (gboolean outside, const char *reason, GError **error)
{
  return !outside || (reason != NULL && *reason != '\0')
         || refuse (error, _("What happened outside the gate or past a limit needs the vet's reason. Write it."));
}

static gboolean
check_injection_tumour (gconstpointer fact, GError **error)
{
  const SwInjectionTumour *part = fact;
  g_autofree char *drawn = sw_drug_volume_format (part->drawn_nl);
  g_autofree char *given = sw_drug_volume_format (part->given_nl);

  if (part->given_nl > part->drawn_nl)
    return refuse (error, _("%s mL given is more than the %s mL drawn. Look at both."), given, drawn);
  if (part->given_nl < part->drawn_nl && (part->reason == NULL || *part->reason == '\0'))
    return refuse (error, _("%s mL given is less than the %s mL drawn: write why."), given, drawn);
  return TRUE;
}

static gboolean
check_wound (gconstpointer fact, GError **error)
{
  const SwWound *wound = fact;
  gboolean has_length = wound->length != SW_UNKNOWN, has_width = wound->width != SW_UNKNOWN;

  if (has_length != has_width)
    return refuse (error, _("A wound is measured by length and width. Fill in both, or neither."));
  if (has_length && wound->state != SW_WOUND_OPEN)
    return refuse (error, _("Only an open wound has a size. Choose “open”, or leave the size empty."));
  return TRUE;
}

static gboolean
check_course_end (gconstpointer fact, GError **error)
{
  const SwCourseEnd *end = fact;
  gboolean dead = end->end == SW_END_DIED || end->end == SW_END_EUTHANISED;

  if (dead != (end->cause != SW_UNKNOWN))
    return refuse (error, dead ? _("A death needs its cause: tumour, treatment, other or unknown.")
                               : _("Only a death has a cause. Leave it empty."));
  return TRUE;
}

static gboolean
check_setting (gconstpointer fact, GError **error)
{
  const SwSetting *setting = fact;
  gboolean hour = g_str_has_prefix (setting->key, "hour-");
  gint64 number;

  if (!hour && !g_str_has_prefix (setting->key, "washout."))
    return TRUE;
  if (!g_ascii_string_to_signed (setting->value, 10, 0, hour ? SW_MINUTES_PER_DAY - 1 : 365, &number, NULL))
    return refuse (error, hour ? _("“%s” is no time of the day.") : _("“%s” is no number of days from 0 to 365."),
                   setting->value);
  return TRUE;
}

static gboolean
check_medicine_taken (gconstpointer fact, GError **error)
{
  const SwMedicineTaken *taken = fact;

  return check_order (_("first day"), taken->first_day, _("last day"), taken->last_day, error);
}

static gboolean
check_visit (gconstpointer fact, GError **error)
{
  const SwVisit *visit = fact;

  return check_order (_("day"), visit->day, _("last day of the cover"), visit->cover_until, error);
}

static gboolean
check_release (gconstpointer fact, GError **error)
{
  const SwRelease *release = fact;

  return check_outside (release->outside == 1, release->reason, error);
}

static gboolean
check_injection (gconstpointer fact, GError **error)
{
  const SwInjection *injection = fact;

  return check_outside (injection->outside == 1 || injection->past_limit == 1, injection->reason, error);
}

/* What fields of one kind must say together; NULL: nothing more. */
static gboolean (*const together[SW_N_FACTS]) (gconstpointer fact, GError **error) = {
  [SW_FACT_PATIENT_DETAILS] = check_patient,
  [SW_FACT_SETTING] = check_setting,
  [SW_FACT_ANSWER] = check_answer,
  [SW_FACT_REASON] = check_reason,
  [SW_FACT_MEDICINE_TAKEN] = check_medicine_taken,
  [SW_FACT_PLAN] = check_plan,
  [SW_FACT_DOSE_EVENT] = check_dose_event,
  [SW_FACT_RELEASE] = check_release,
  [SW_FACT_INJECTION] = check_injection,
  [SW_FACT_INJECTION_TUMOUR] = check_injection_tumour,
  [SW_FACT_VISIT] = check_visit,
  [SW_FACT_WOUND] = check_wound,
  [SW_FACT_COURSE_END] = check_course_end,
};

gboolean
sw_fact_validate (gconstpointer fact, GError **error)
{
  const SwFact *head = fact;
  const SwFactType *type = sw_fact_type (head->kind);

  if (!check_owner (fact, error))
    return FALSE;
  for (guint i = 0; i < type->n_fields; i++)
    if (!check_field (fact, &type->fields[i], error))
      return FALSE;
  return together[head->kind] == NULL || together[head->kind] (fact, error);
}
