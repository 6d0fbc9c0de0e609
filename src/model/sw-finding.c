/* sw-finding.c: findings as values, and their sentences
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-finding.h"

#include "sw-finding-private.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Digits after the point of a number in a sentence before more are needed to tell it from its limit. */
#define SHOWN_DIGITS 2

static const char *const severity_names[SW_N_SEVERITIES] = {
  [SW_MEETS] = N_("meets"),
  [SW_NOTE] = N_("note"),
  [SW_VET_DECIDES] = N_("vet decides"),
  [SW_NOT_KNOWN] = N_("not known"),
  [SW_STOP] = N_("stop"),
};

static void
clear_arg (gpointer arg)
{
  g_free (((SwArg *) arg)->text);
}

static GArray *
new_args (void)
{
  GArray *args = g_array_new (FALSE, FALSE, sizeof (SwArg));

  g_array_set_clear_func (args, clear_arg);
  return args;
}

SwFinding *
sw_finding_new (SwFindingCode code)
{
  SwFinding *finding;

  g_return_val_if_fail ((guint) code < SW_N_FINDINGS, NULL);

  finding = g_new0 (SwFinding, 1);
  finding->code = code;
  finding->severity = sw_finding_words (code)->severity;
  finding->args = new_args ();
  return finding;
}

SwFinding *
sw_finding_copy (const SwFinding *finding)
{
  SwFinding *copy = g_new (SwFinding, 1);

  *copy = *finding;
  copy->about = g_strdup (finding->about);
  copy->args = new_args ();
  for (guint i = 0; i < finding->args->len; i++)
    {
      SwArg arg = g_array_index (finding->args, SwArg, i);

      arg.text = g_strdup (arg.text);
      g_array_append_val (copy->args, arg);
    }
  return copy;
}

void
sw_finding_free (SwFinding *finding)
{
  if (finding == NULL)
    return;
  g_free (finding->about);
  g_array_unref (finding->args);
  g_free (finding);
}

const SwArg *
sw_finding_arg (const SwFinding *finding, const char *name)
{
  for (guint i = 0; i < finding->args->len; i++)
    if (g_str_equal (g_array_index (finding->args, SwArg, i).name, name))
      return &g_array_index (finding->args, SwArg, i);
  return NULL;
}

/* Takes `text`. An argument set twice keeps the later value. */
static void
set_arg (SwFinding *finding, const char *name, SwArgType type, SwRatio value, char *text)
{
  SwArg *before = (SwArg *) sw_finding_arg (finding, name);
  SwArg arg = { g_intern_string (name), type, value.num, value.den, text };

  if (before == NULL)
    {
      g_array_append_val (finding->args, arg);
      return;
    }
  g_free (before->text);
  *before = arg;
}

static void
set_number (SwFinding *finding, const char *name, SwArgType type, gint64 value)
{
  set_arg (finding, name, type, (SwRatio){ value, 1 }, NULL);
}

void
sw_finding_text (SwFinding *finding, const char *name, const char *text)
{
  set_arg (finding, name, SW_ARG_TEXT, (SwRatio){ 0, 1 }, g_strdup (text));
}

void
sw_finding_count (SwFinding *finding, const char *name, gint64 count)
{
  set_number (finding, name, SW_ARG_COUNT, count);
}

void
sw_finding_length (SwFinding *finding, const char *name, gint64 hundredths_mm)
{
  set_number (finding, name, SW_ARG_LENGTH, hundredths_mm);
}

void
sw_finding_mass (SwFinding *finding, const char *name, gint64 grams)
{
  set_number (finding, name, SW_ARG_MASS, grams);
}

void
sw_finding_day (SwFinding *finding, const char *name, SwDay day)
{
  set_number (finding, name, SW_ARG_DAY, day);
}

void
sw_finding_minute (SwFinding *finding, const char *name, int minute)
{
  set_number (finding, name, SW_ARG_MINUTE, minute);
}

void
sw_finding_ratio (SwFinding *finding, const char *name, SwWide num, SwWide den, const char *unit)
{
  g_return_if_fail (den > 0);
  set_arg (finding, name, SW_ARG_RATIO, (SwRatio){ num, den }, g_strdup (unit));
}

void
sw_finding_basis (SwFinding *finding, const char *source, const char *mark)
{
  finding->source = g_intern_string (source);
  finding->mark = g_intern_string (mark);
}

/* The partner that a value or a limit must be told apart from. */
static const SwArg *
partner_of (const SwFinding *finding, const SwArg *arg)
{
  const SwArg *partner = NULL;

  if (g_str_equal (arg->name, "value"))
    partner = sw_finding_arg (finding, "limit");
  else if (g_str_equal (arg->name, "limit"))
    partner = sw_finding_arg (finding, "value");
  return partner != NULL && partner->type == arg->type ? partner : NULL;
}

/* A number with as many digits as it needs to differ from its partner. */
static char *
number_text (const SwFinding *finding, const SwArg *arg, SwWide scale)
{
  const SwArg *partner = partner_of (finding, arg);
  SwRatio own = { arg->num, arg->den * scale };
  SwRatio other = partner ? (SwRatio){ partner->num, partner->den * scale } : own;
  gboolean is_limit = partner == NULL || g_str_equal (arg->name, "limit");
  char *value_text, *limit_text;

  sw_ratio_format_beside (is_limit ? other : own, is_limit ? own : other, SHOWN_DIGITS, &value_text, &limit_text);
  g_free (is_limit ? value_text : limit_text);
  return is_limit ? limit_text : value_text;
}

static char *
with_unit (char *number, const char *unit)
{
  char *text = unit && *unit ? g_strdup_printf ("%s %s", number, unit) : g_strdup (number);

  g_free (number);
  return text;
}

static char *
length_text (gint64 hundredths_mm)
{
  return with_unit (sw_length_format (hundredths_mm), "mm");
}

static char *
arg_text (const SwFinding *finding, const SwArg *arg)
{
  switch (arg->type)
    {
    case SW_ARG_TEXT:
      return g_strdup (arg->text ? arg->text : "");
    case SW_ARG_COUNT:
      return g_strdup_printf ("%" G_GINT64_FORMAT, (gint64) arg->num);
    case SW_ARG_LENGTH:
      return length_text ((gint64) arg->num);
    case SW_ARG_MASS:
      return with_unit (number_text (finding, arg, SW_GRAMS_PER_KG), "kg");
    case SW_ARG_DAY:
      return sw_day_format ((SwDay) arg->num);
    case SW_ARG_MINUTE:
      return sw_time_format ((int) arg->num);
    case SW_ARG_RATIO:
      return with_unit (number_text (finding, arg, 1), arg->text);
    }
  g_return_val_if_reached (NULL);
}

static void
append_arg (GString *out, const SwFinding *finding, const char *name, gsize length)
{
  g_autofree char *key = g_strndup (name, length);
  const SwArg *arg = sw_finding_arg (finding, key);
  g_autofree char *text = arg ? arg_text (finding, arg) : g_strdup_printf ("{%s}", key);

  g_string_append (out, text);
}

static char *
fill_in (const SwFinding *finding, const char *template)
{
  GString *out = g_string_new (NULL);
  const char *open, *close;

  while ((open = strchr (template, '{')) != NULL && (close = strchr (open, '}')) != NULL)
    {
      g_string_append_len (out, template, open - template);
      append_arg (out, finding, open + 1, (gsize) (close - open - 1));
      template = close + 1;
    }
  g_string_append (out, template);
  return g_string_free (out, FALSE);
}

/* A sentence that begins with a substance or a question begins with a capital all the same. */
static char *
capitalised (char *sentence)
{
  GString *out = g_string_new (NULL);
  g_autofree char *taken = sentence;

  g_string_append_unichar (out, g_unichar_totitle (g_utf8_get_char (taken)));
  g_string_append (out, *taken != '\0' ? g_utf8_next_char (taken) : "");
  return g_string_free (out, FALSE);
}

char *
sw_finding_sentence (const SwFinding *finding)
{
  return capitalised (fill_in (finding, _(sw_finding_words (finding->code)->sentence)));
}

char *
sw_finding_next (const SwFinding *finding)
{
  const char *next = sw_finding_words (finding->code)->next;

  return next ? capitalised (fill_in (finding, _(next))) : NULL;
}

const char *
sw_finding_code (SwFindingCode code)
{
  return sw_finding_words (code)->name;
}

int
sw_finding_from_code (const char *code)
{
  for (int i = 0; i < SW_N_FINDINGS; i++)
    if (g_strcmp0 (sw_finding_words (i)->name, code) == 0)
      return i;
  return -1;
}

const char *
sw_severity_name (SwSeverity severity)
{
  g_return_val_if_fail ((guint) severity < SW_N_SEVERITIES, NULL);
  return _(severity_names[severity]);
}

GPtrArray *
sw_findings_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) sw_finding_free);
}

/* Acts that end the work before the needle: what is wrong or not known is told before them. */
static gboolean
is_last_act (SwFindingCode code)
{
  return code == SW_FINDING_NOT_READ_ALOUD || code == SW_FINDING_READ_ALOUD_STALE || code == SW_FINDING_SECOND_LOOK_EARLY
         || code == SW_FINDING_NOT_RELEASED;
}

static gboolean
refuses_dose (SwFindingCode code)
{
  return (code >= SW_FINDING_VOLUME_LIMIT && code <= SW_FINDING_ARITHMETIC) || code == SW_FINDING_TUMOUR_TOO_LARGE;
}

SwBlockRank
sw_finding_rank (const SwFinding *finding)
{
  switch (finding->severity)
    {
    case SW_STOP:
      if (is_last_act (finding->code))
        return SW_RANK_LAST_ACT;
      return refuses_dose (finding->code) ? SW_RANK_REFUSAL : SW_RANK_STOP;
    case SW_NOT_KNOWN:
      return SW_RANK_NOT_KNOWN;
    case SW_VET_DECIDES:
      return SW_RANK_VET_DECIDES;
    case SW_NOTE:
      return SW_RANK_NOTE;
    case SW_MEETS:
    case SW_N_SEVERITIES:
      break;
    }
  return SW_RANK_MEETS;
}

static int
by_rank (gconstpointer a, gconstpointer b)
{
  return (int) sw_finding_rank (*(const SwFinding *const *) a) - (int) sw_finding_rank (*(const SwFinding *const *) b);
}

void
sw_findings_sort (GPtrArray *findings)
{
  g_ptr_array_sort (findings, by_rank); /* stable: the order of the work stays within a rank */
}

SwSeverity
sw_findings_worst (const GPtrArray *findings)
{
  SwSeverity worst = SW_MEETS;

  for (guint i = 0; i < findings->len; i++)
    worst = MAX (worst, ((const SwFinding *) findings->pdata[i])->severity);
  return worst;
}

static void
append_code (GString *codes, const SwFinding *finding)
{
  g_string_append_printf (codes, "%s%s", codes->len ? ";" : "", sw_finding_code (finding->code));
  if (finding->about != NULL)
    g_string_append_printf (codes, ":%s", finding->about);
  if (finding->tumour != 0)
    g_string_append_printf (codes, "@%" G_GINT64_FORMAT, finding->tumour);
}

char *
sw_findings_codes (const GPtrArray *findings, SwSeverity least)
{
  GString *codes = g_string_new (NULL);

  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->severity >= least)
        append_code (codes, finding);
    }
  return g_string_free (codes, FALSE);
}
