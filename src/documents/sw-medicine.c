/* sw-medicine.c: reads and checks a medicine's document
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-medicine.h"
#include "sw-reader-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>
#include <string.h>

#define UG_DIGITS 3 /* mg in documents, ug inside */

static const char *const divide_codes[] = { "whole", "halves", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (divide_codes) == SW_N_DIVIDES + 1);

static const struct
{
  const char *figure;
  SwMedicineForm form;
  const char *unit;
} forms[] = {
  { "tablets", SW_FORM_TABLET, "mg" },
  { "capsules", SW_FORM_CAPSULE, "mg" },
  { "soft-tablets", SW_FORM_SOFT_TABLET, "mg" },
  { "liquids", SW_FORM_LIQUID, "mg/mL" },
};

static void
read_target (SwReader *reader, SwNode *dose, SwMedicine *medicine)
{
  const SwFigure *floor = sw_reader_figure (reader, dose, "at-least");
  const SwFigure *target = sw_reader_figure (reader, dose, "target");

  medicine->at_least = floor != NULL;
  medicine->target_ug_per_kg = sw_reader_amount (reader, floor != NULL ? floor : target, "mg/kg", UG_DIGITS);
  if (floor != NULL && target != NULL)
    sw_reader_refuse_figure (reader, target, SW_CONTRADICTION_DUPLICATE_FIGURE,
                             _ ("a medicine has a target or an at-least, not both"));
  medicine->high_ug_per_kg = sw_reader_amount (reader, sw_reader_need (reader, dose, "high"), "mg/kg", UG_DIGITS);
  if (medicine->at_least)
    medicine->low_ug_per_kg = medicine->target_ug_per_kg;
  else
    medicine->low_ug_per_kg = sw_reader_amount (reader, sw_reader_need (reader, dose, "low"), "mg/kg", UG_DIGITS);
  medicine->first_ug_per_kg = sw_reader_amount (reader, sw_reader_figure (reader, dose, "first"), "mg/kg", UG_DIGITS);
}

static void
check_target (SwReader *reader, SwNode *dose, const SwMedicine *medicine)
{
  const SwFigure *high = sw_reader_figure (reader, dose, "high"), *target = sw_reader_figure (reader, dose, "target");
  gboolean has_range = medicine->low_ug_per_kg != SW_UNKNOWN && medicine->high_ug_per_kg != SW_UNKNOWN;

  if (has_range && medicine->low_ug_per_kg > medicine->high_ug_per_kg)
    sw_reader_refuse_figure (
        reader, high, SW_CONTRADICTION_LEAST_OVER_MOST,
        _ ("the lowest dose, %" PRId64 " ug/kg, is over the highest, %" PRId64 " ug/kg"),
        medicine->low_ug_per_kg, medicine->high_ug_per_kg);
  else if (has_range && target != NULL && medicine->target_ug_per_kg != SW_UNKNOWN &&
           (medicine->target_ug_per_kg < medicine->low_ug_per_kg ||
            medicine->target_ug_per_kg > medicine->high_ug_per_kg))
    sw_reader_refuse_figure (reader, target, SW_CONTRADICTION_OUT_OF_RANGE,
                             _ ("the target lies outside %" PRId64 " to %" PRId64 " ug/kg"),
                             medicine->low_ug_per_kg, medicine->high_ug_per_kg);
}

/* "12 to 24 h", or "12 h". */
static void
read_interval (SwReader *reader, SwNode *dose, SwMedicine *medicine)
{
  const SwFigure *figure = sw_reader_need (reader, dose, "every");
  g_autofree char *value = figure != NULL ? g_strdup (figure->value) : NULL;
  char *to, *unit;
  gint64 least, most;

  if (value == NULL || *value == '\0')
    return;
  unit = g_str_has_suffix (value, " h") ? value + strlen (value) - strlen (" h") : NULL;
  if (unit == NULL)
    {
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNIT_MISMATCH, _ ("“%s” is not in hours (h)"),
                               figure->value);
      return;
    }
  *unit = '\0';
  to = strstr (value, " to ");
  if (to != NULL)
    *to = '\0';
  if (!sw_decimal_parse (value, 0, &least, NULL) ||
      !sw_decimal_parse (to != NULL ? to + strlen (" to ") : value, 0, &most, NULL) || least == 0)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE,
                             _ ("“%s” is no interval: write it like 12 h or 8 to 12 h"), figure->value);
  else if (least > most)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_LEAST_OVER_MOST,
                             _ ("the shortest interval is longer than the longest"));
  else
    {
      medicine->least_hours = least;
      medicine->most_hours = most;
    }
}

static int
compare_strengths (gconstpointer a, gconstpointer b)
{
  const SwStrength *left = *(SwStrength *const *) a, *right = *(SwStrength *const *) b;

  return (left->ug > right->ug) - (left->ug < right->ug);
}

static void
add_strength (SwReader *reader, SwMedicine *medicine, const SwFigure *figure, SwMedicineForm form, const char *number)
{
  g_autoptr (GError) error = NULL;
  SwStrength *strength;
  gint64 ug = 0;

  if (!sw_decimal_parse (number, UG_DIGITS, &ug, &error))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE, "%s", error->message);
  else if (ug == 0)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE, _ ("a strength of 0 holds nothing"));
  for (guint i = 0; i < medicine->strengths->len; i++)
    {
      const SwStrength *other = g_ptr_array_index (medicine->strengths, i);

      if (other->ug == ug && other->form == form)
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DUPLICATE_ID,
                                 _ ("the strength %s stands there twice"), number);
    }
  strength = g_new0 (SwStrength, 1);
  *strength = (SwStrength){ ug, form, figure };
  g_ptr_array_add (medicine->strengths, strength);
}

/* "1; 2.5; 5 mg": one unit at the end. */
static void
read_strengths (SwReader *reader, SwNode *stock, SwMedicine *medicine)
{
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      const SwFigure *figure = sw_reader_figure (reader, stock, forms[i].figure);
      g_auto (GStrv) parts = sw_reader_list (reader, figure);
      guint n = parts != NULL ? g_strv_length (parts) : 0;
      char *unit = n > 0 ? strchr (parts[n - 1], ' ') : NULL;

      if (n == 0)
        continue;
      if (unit == NULL || !g_str_equal (unit + 1, forms[i].unit))
        {
          sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNIT_MISMATCH, _ ("“%s” does not end in %s"),
                                   figure->value, forms[i].unit);
          continue;
        }
      *unit = '\0';
      for (guint j = 0; j < n; j++)
        add_strength (reader, medicine, figure, forms[i].form, parts[j]);
    }
  g_ptr_array_sort (medicine->strengths, compare_strengths);
}

static gboolean
has_tablets (const SwMedicine *medicine)
{
  for (guint i = 0; i < medicine->strengths->len; i++)
    {
      const SwStrength *strength = g_ptr_array_index (medicine->strengths, i);

      if (strength->form == SW_FORM_TABLET || strength->form == SW_FORM_SOFT_TABLET)
        return TRUE;
    }
  return FALSE;
}

static void
read_stock (SwReader *reader, SwNode *stock, SwMedicine *medicine)
{
  const SwFigure *divide;
  int code;

  if (stock == NULL)
    return;
  read_strengths (reader, stock, medicine);
  divide = sw_reader_need (reader, stock, "divide");
  code = sw_reader_code (reader, divide, divide_codes, SW_CONTRADICTION_BAD_VALUE);
  medicine->divide = code == SW_DIVIDE_HALVES ? SW_DIVIDE_HALVES : SW_DIVIDE_WHOLE;
  if (medicine->divide == SW_DIVIDE_HALVES && !has_tablets (medicine))
    sw_reader_refuse_figure (reader, divide, SW_CONTRADICTION_FORM_MISMATCH,
                             _ ("only tablets have halves, and none is listed"));
}

static gboolean
read_yes (SwReader *reader, SwNode *parent, const char *name)
{
  static const char *const codes[] = { "no", "yes", NULL };

  return sw_reader_code (reader, sw_reader_figure (reader, parent, name), codes, SW_CONTRADICTION_BAD_VALUE) == 1;
}

static void
read_body (SwReader *reader, SwMedicine *medicine)
{
  SwNode *dose = sw_reader_child (reader, reader->root, "dose");
  SwNode *handling = sw_reader_child (reader, reader->root, "handling");

  medicine->classes = sw_reader_list (reader, sw_reader_need (reader, handling, "classes"));
  medicine->washout_days = sw_reader_whole (reader, sw_reader_figure (reader, handling, "washout"), "d");
  medicine->single_substance = read_yes (reader, handling, "single-substance");
  medicine->controlled = read_yes (reader, handling, "controlled");
  if (dose != NULL)
    {
      read_target (reader, dose, medicine);
      check_target (reader, dose, medicine);
      read_interval (reader, dose, medicine);
    }
  read_stock (reader, sw_reader_child (reader, reader->root, "stock"), medicine);
  medicine->cautions = sw_reader_texts (reader, sw_reader_child (reader, reader->root, "cautions"));
}

SwMedicine *
sw_medicine_parse (const char *name, GBytes *bytes, GError **error)
{
  g_autoptr (SwMedicine) medicine = g_new0 (SwMedicine, 1);
  SwReader reader;

  medicine->target_ug_per_kg = medicine->low_ug_per_kg = medicine->high_ug_per_kg = SW_UNKNOWN;
  medicine->first_ug_per_kg = medicine->washout_days = SW_UNKNOWN;
  medicine->least_hours = medicine->most_hours = SW_UNKNOWN;
  medicine->strengths = g_ptr_array_new_with_free_func (g_free);
  sw_reader_init (&reader, &medicine->head, SW_DOCUMENT_MEDICINE, name, bytes, (const char *const[]){ NULL });
  if (reader.error == NULL)
    read_body (&reader, medicine);
  return sw_reader_finish (&reader, error) ? g_steal_pointer (&medicine) : NULL;
}

void
sw_medicine_free (SwMedicine *medicine)
{
  if (medicine == NULL)
    return;
  g_clear_pointer (&medicine->strengths, g_ptr_array_unref);
  g_clear_pointer (&medicine->classes, g_strfreev);
  g_clear_pointer (&medicine->cautions, g_ptr_array_unref);
  sw_document_head_clear (&medicine->head);
  g_free (medicine);
}

gboolean
sw_medicine_has_class (const SwMedicine *medicine, const char *class_code)
{
  return medicine->classes != NULL && g_strv_contains ((const char *const *) medicine->classes, class_code);
}

const SwMedicine *
sw_medicines_find (const GPtrArray *medicines, const char *substance)
{
  for (guint i = medicines->len; i-- > 0;)
    {
      const SwMedicine *medicine = g_ptr_array_index (medicines, i);

      if (g_str_equal (medicine->head.id, substance))
        return medicine;
    }
  return NULL;
}
