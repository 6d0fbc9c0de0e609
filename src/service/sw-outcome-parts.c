/* sw-outcome-parts.c: which treated tumours a query chooses, and what they are told apart by
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-private.h"

#include "sw-question.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *code;
  const char *name;
} splits[SW_N_SPLITS] = {
  [SW_SPLIT_NONE] = { "none", N_("all together") },
  [SW_SPLIT_GRADE] = { "grade", N_("grade") },
  [SW_SPLIT_SITE] = { "site", N_("site") },
  [SW_SPLIT_DEPTH] = { "depth", N_("depth") },
  [SW_SPLIT_SIZE] = { "size", N_("volume of the tumour") },
  [SW_SPLIT_WEIGHT] = { "weight", N_("weight of the dog") },
  [SW_SPLIT_AGENT] = { "agent", N_("agent") },
  [SW_SPLIT_OPERATOR] = { "operator", N_("who injected") },
  [SW_SPLIT_REPEAT] = { "repeat", N_("first or repeat injection") },
};

const char *
sw_split_code (SwSplit split)
{
  g_return_val_if_fail ((guint) split < SW_N_SPLITS, NULL);
  return splits[split].code;
}

const char *
sw_split_name (SwSplit split)
{
  g_return_val_if_fail ((guint) split < SW_N_SPLITS, NULL);
  return _(splits[split].name);
}

int
sw_split_from_code (const char *code)
{
  for (int i = 0; i < SW_N_SPLITS; i++)
    if (g_strcmp0 (splits[i].code, code) == 0)
      return i;
  return -1;
}

/* --- the query --- */

SwOutcomeQuery *
sw_outcome_query_new (void)
{
  SwOutcomeQuery *query = g_new0 (SwOutcomeQuery, 1);

  query->from = query->to = SW_NO_DAY;
  query->rates = SW_RATES_USUAL;
  query->published = SW_DEF_PUBLISHED_FIRST;
  return query;
}

SwOutcomeQuery *
sw_outcome_query_copy (const SwOutcomeQuery *query)
{
  SwOutcomeQuery *copy = g_memdup2 (query, sizeof *query);

  for (guint i = 0; i < SW_N_SPLITS; i++)
    copy->only[i] = g_strdup (query->only[i]);
  return copy;
}

void
sw_outcome_query_free (SwOutcomeQuery *query)
{
  for (guint i = 0; i < SW_N_SPLITS; i++)
    g_free (query->only[i]);
  g_free (query);
}

/* --- what a row is, in a place that sorts --- */

typedef enum { SITE_HEAD, SITE_TRUNK, SITE_FORELIMB, SITE_HINDLIMB } Site;

static Site
site_of (const SwTreated *row)
{
  if (row->region <= SW_REGION_NECK)
    return SITE_HEAD;
  if (row->region <= SW_REGION_TAIL)
    return SITE_TRUNK;
  return row->region <= SW_REGION_FORE_DIGIT ? SITE_FORELIMB : SITE_HINDLIMB;
}

static guint
class_of (gint64 value, SwDefinitionId small, SwDefinitionId large)
{
  return value < sw_definition_whole (small) ? 0 : value < sw_definition_whole (large) ? 1 : 2;
}

static const struct
{
  const char *code;
  const char *label;
} sites[] = {
  { "head", N_("head and neck") }, { "trunk", N_("trunk and tail") }, { "forelimb", N_("forelimb") },
  { "hindlimb", N_("hindlimb") },
},
  repeats[] = { { "first", N_("first injection") }, { "second", N_("second injection") },
                { "later", N_("third injection or later") } };

static const char *const sizes[] = { "small", "middle", "large" };
static const char *const dogs[] = { "light", "middle", "heavy" };

static guint
repeat_of (const SwTreated *row)
{
  return (guint) CLAMP (row->injection, 1, (gint64) G_N_ELEMENTS (repeats)) - 1;
}

const char *
sw_split_code_of (const SwTreated *row, SwSplit split)
{
  switch (split)
    {
    case SW_SPLIT_GRADE:
      return row->grade ? row->grade : "none";
    case SW_SPLIT_SITE:
      return sites[site_of (row)].code;
    case SW_SPLIT_DEPTH:
      return sw_depth_code ((SwDepth) row->depth);
    case SW_SPLIT_SIZE:
      return sizes[class_of (row->volume_mm3, SW_DEF_SIZE_SMALL, SW_DEF_SIZE_LARGE)];
    case SW_SPLIT_WEIGHT:
      return dogs[class_of (row->weight_g, SW_DEF_DOG_LIGHT, SW_DEF_DOG_HEAVY)];
    case SW_SPLIT_AGENT:
      return row->agent;
    case SW_SPLIT_OPERATOR:
      {
        char number[24];

        g_snprintf (number, sizeof number, "%" G_GINT64_FORMAT, row->injector);
        return g_intern_string (number);
      }
    case SW_SPLIT_REPEAT:
      return repeats[repeat_of (row)].code;
    case SW_SPLIT_NONE:
    case SW_N_SPLITS:
      break;
    }
  return "all";
}

/* --- labels --- */

static char *
class_label (guint class, SwDefinitionId small, SwDefinitionId large, gint64 per_unit, const char *unit)
{
  g_autofree char *low = sw_ratio_format_significant (sw_ratio (sw_definition_whole (small), per_unit), 1);
  g_autofree char *high = sw_ratio_format_significant (sw_ratio (sw_definition_whole (large), per_unit), 1);

  if (class == 0)
    return g_strdup_printf (_("under %s %s"), low, unit);
  return class == 1 ? g_strdup_printf (_("%s to under %s %s"), low, high, unit)
                    : g_strdup_printf (_("%s %s and more"), high, unit);
}

static char *
grade_label (const SwTreated *row)
{
  const SwChoice *choice = row->grade ? sw_question_choice (sw_question ("grade"), row->grade) : NULL;

  return g_strdup (choice ? _(choice->name) : _("not graded"));
}

char *
sw_split_label_of (const SwTreated *row, SwSplit split, const SwPractice *practice)
{
  switch (split)
    {
    case SW_SPLIT_GRADE:
      return grade_label (row);
    case SW_SPLIT_SITE:
      return g_strdup (_(sites[site_of (row)].label));
    case SW_SPLIT_DEPTH:
      return g_strdup (sw_depth_name ((SwDepth) row->depth));
    case SW_SPLIT_SIZE:
      return class_label (class_of (row->volume_mm3, SW_DEF_SIZE_SMALL, SW_DEF_SIZE_LARGE), SW_DEF_SIZE_SMALL,
                          SW_DEF_SIZE_LARGE, SW_PER_MILLE, "cm³");
    case SW_SPLIT_WEIGHT:
      return class_label (class_of (row->weight_g, SW_DEF_DOG_LIGHT, SW_DEF_DOG_HEAVY), SW_DEF_DOG_LIGHT,
                          SW_DEF_DOG_HEAVY, SW_PER_MILLE, "kg");
    case SW_SPLIT_AGENT:
      return g_strdup (row->agent);
    case SW_SPLIT_OPERATOR:
      return g_strdup (sw_practice_person_name (practice, row->injector));
    case SW_SPLIT_REPEAT:
      return g_strdup (_(repeats[repeat_of (row)].label));
    case SW_SPLIT_NONE:
    case SW_N_SPLITS:
      break;
    }
  return g_strdup (_("all"));
}

/* Where a row's part stands among the parts: by the vocabulary's order; agents and people by row. */
static gint64
order_of (const SwTreated *row, SwSplit split)
{
  const SwQuestion *question;

  switch (split)
    {
    case SW_SPLIT_GRADE:
      question = sw_question ("grade");
      for (guint i = 0; i < question->n_choices; i++)
        if (g_strcmp0 (question->choices[i].code, row->grade) == 0)
          return i;
      return 0;
    case SW_SPLIT_SITE:
      return site_of (row);
    case SW_SPLIT_DEPTH:
      return row->depth;
    case SW_SPLIT_SIZE:
      return class_of (row->volume_mm3, SW_DEF_SIZE_SMALL, SW_DEF_SIZE_LARGE);
    case SW_SPLIT_WEIGHT:
      return class_of (row->weight_g, SW_DEF_DOG_LIGHT, SW_DEF_DOG_HEAVY);
    case SW_SPLIT_OPERATOR:
      return row->injector;
    case SW_SPLIT_REPEAT:
      return repeat_of (row);
    case SW_SPLIT_NONE:
    case SW_SPLIT_AGENT:
    case SW_N_SPLITS:
      break;
    }
  return 0;
}

/* --- parts --- */

GArray *
sw_places_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (guint));
}

void
sw_places_add (GArray *places, guint place)
{
  g_array_append_val (places, place);
}

const SwTreated *
sw_outcome_row (const SwOutcomeRun *run, const GArray *places, guint i)
{
  return &g_array_index (run->rows, SwTreated, g_array_index (places, guint, i));
}

void
sw_outcome_part_free (gpointer data)
{
  SwOutcomePart *part = data;

  g_free (part->code);
  g_free (part->label);
  g_array_unref (part->rows);
  g_free (part);
}

static SwOutcomePart *
part_new (const char *code, char *label)
{
  SwOutcomePart *part = g_new0 (SwOutcomePart, 1);

  part->code = g_strdup (code);
  part->label = label;
  part->rows = sw_places_new ();
  return part;
}

static gboolean
is_chosen (const SwOutcomeQuery *query, const SwTreated *row)
{
  if ((query->from != SW_NO_DAY && row->day < query->from) || (query->to != SW_NO_DAY && row->day > query->to))
    return FALSE;
  for (int split = 0; split < SW_N_SPLITS; split++)
    if (query->only[split] != NULL && g_strcmp0 (query->only[split], sw_split_code_of (row, (SwSplit) split)) != 0)
      return FALSE;
  return TRUE;
}

static int
by_order (gconstpointer a, gconstpointer b, gpointer data)
{
  const SwOutcomePart *first = *(const SwOutcomePart *const *) a, *second = *(const SwOutcomePart *const *) b;
  const SwOutcomeRun *run = data;
  gint64 x = order_of (sw_outcome_row (run, first->rows, 0), run->query->split);
  gint64 y = order_of (sw_outcome_row (run, second->rows, 0), run->query->split);

  return x != y ? (x > y) - (x < y) : g_strcmp0 (first->code, second->code);
}

static void
add_to_part (SwOutcomeRun *run, GHashTable *known, GPtrArray *parts, guint place)
{
  const SwTreated *row = &g_array_index (run->rows, SwTreated, place);
  const char *code = sw_split_code_of (row, run->query->split);
  SwOutcomePart *part = g_hash_table_lookup (known, code);

  if (part == NULL)
    {
      part = part_new (code, sw_split_label_of (row, run->query->split, run->practice));
      g_hash_table_insert (known, part->code, part);
      g_ptr_array_add (parts, part);
    }
  sw_places_add (part->rows, place);
}

void
sw_outcome_split (SwOutcomeRun *run)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  SwOutcomePart *all = part_new ("all", g_strdup (_("all")));

  for (guint i = 0; i < run->rows->len; i++)
    if (is_chosen (run->query, &g_array_index (run->rows, SwTreated, i)))
      {
        sw_places_add (all->rows, i);
        if (run->query->split != SW_SPLIT_NONE)
          add_to_part (run, known, parts, i);
      }
  g_ptr_array_sort_with_data (parts, by_order, run);
  run->parts = g_ptr_array_new_with_free_func (sw_outcome_part_free);
  g_ptr_array_add (run->parts, all);
  g_ptr_array_extend_and_steal (run->parts, g_steal_pointer (&parts));
}

/* --- the values there are --- */

void
sw_split_value_free (SwSplitValue *value)
{
  g_free (value->code);
  g_free (value->label);
  g_free (value);
}

GPtrArray *
sw_split_values (const GArray *rows, const SwPractice *practice, SwSplit split)
{
  g_autoptr (SwOutcomeQuery) query = sw_outcome_query_new ();
  SwOutcomeRun run = { .rows = rows, .practice = practice, .query = query };
  GPtrArray *values = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_split_value_free);

  query->split = split;
  sw_outcome_split (&run);
  for (guint i = 1; i < run.parts->len; i++)
    {
      SwOutcomePart *part = run.parts->pdata[i];
      SwSplitValue *value = g_new0 (SwSplitValue, 1);

      value->code = g_steal_pointer (&part->code);
      value->label = g_steal_pointer (&part->label);
      g_ptr_array_add (values, value);
    }
  g_ptr_array_unref (run.parts);
  return values;
}
