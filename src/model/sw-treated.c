/* sw-treated.c: the columns of a treated tumour
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-treated.h"

#define INT(member) { #member, G_STRUCT_OFFSET (SwTreated, member), FALSE, FALSE }
#define INT_OR_NONE(member) { #member, G_STRUCT_OFFSET (SwTreated, member), FALSE, TRUE }
#define TEXT(member) { #member, G_STRUCT_OFFSET (SwTreated, member), TRUE, FALSE }
#define TEXT_OR_NONE(member) { #member, G_STRUCT_OFFSET (SwTreated, member), TRUE, TRUE }

static const SwTreatedField fields[] = {
  INT (course),
  INT (tumour),
  INT (patient),
  INT (course_number),
  INT (tumours),
  INT (place),
  INT (letter),
  INT (day),
  INT (minute),
  INT (injection),
  TEXT (agent),
  TEXT_OR_NONE (grade),
  INT (region),
  INT (side),
  INT (depth),
  INT (volume_mm3),
  INT (weight_g),
  INT (injector),
  INT (outside),
  INT (past_limit),
  INT (window_last),
  INT_OR_NONE (category),
  INT (scores),
  INT_OR_NONE (best_num),
  INT_OR_NONE (best_den),
  INT_OR_NONE (end),
  INT_OR_NONE (end_cause),
  INT_OR_NONE (end_day),
  INT_OR_NONE (died_day),
  INT_OR_NONE (clear_day),
  INT_OR_NONE (last_clear_day),
  INT_OR_NONE (recurrence_day),
  INT_OR_NONE (sampled),
  INT (wound_looks),
  INT_OR_NONE (wound_open_day),
  INT_OR_NONE (wound_closed_day),
  INT_OR_NONE (reader_a),
  INT_OR_NONE (longest_a),
  INT_OR_NONE (longest_again),
  INT_OR_NONE (reader_b),
  INT_OR_NONE (longest_b),
  INT (doses),
  INT (doses_on_time),
  INT (doses_late),
  INT (doses_lost),
  INT (doses_replaced),
  INT (doses_untold),
  INT (released_nl),
  INT (drawn_nl),
  INT (given_nl),
  INT (vials),
  INT (left_nl),
};

const SwTreatedField *
sw_treated_fields (guint *n)
{
  *n = G_N_ELEMENTS (fields);
  return fields;
}

gint64
sw_treated_int (const SwTreated *treated, const SwTreatedField *field)
{
  return G_STRUCT_MEMBER (gint64, treated, field->offset);
}

const char *
sw_treated_text (const SwTreated *treated, const SwTreatedField *field)
{
  return G_STRUCT_MEMBER (const char *, treated, field->offset);
}

void
sw_treated_set_int (SwTreated *treated, const SwTreatedField *field, gint64 value)
{
  G_STRUCT_MEMBER (gint64, treated, field->offset) = value;
}

void
sw_treated_set_text (SwTreated *treated, const SwTreatedField *field, const char *value)
{
  G_STRUCT_MEMBER (const char *, treated, field->offset) = value ? g_intern_string (value) : NULL;
}

gboolean
sw_treated_equal (const SwTreated *a, const SwTreated *b)
{
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (fields[i].text ? g_strcmp0 (sw_treated_text (a, &fields[i]), sw_treated_text (b, &fields[i])) != 0
                       : sw_treated_int (a, &fields[i]) != sw_treated_int (b, &fields[i]))
      return FALSE;
  return TRUE;
}
