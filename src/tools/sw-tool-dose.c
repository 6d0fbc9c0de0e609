/* sw-tool-dose.c: sitewardctl dose
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-tool-private.h"

#include "sw-books.h"
#include "sw-dose.h"
#include "sw-quantity.h"
#include "sw-tool-clinical-private.h"

#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

#define LENGTHS_PER_MM 100

typedef struct
{
  char *record;
  char *protocol;
  char *weight;
  char **tumours;
} Options;

static void
options_clear (Options *options)
{
  g_free (options->record);
  g_free (options->protocol);
  g_free (options->weight);
  g_strfreev (options->tumours);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

/* The unit a reading ends with, "" if it has none. */
static const char *
unit_of (const char *reading)
{
  const char *end = reading + strlen (reading);

  while (end > reading && g_ascii_isalpha (end[-1]))
    end--;
  return end;
}

/* "21.4x18.0x8.9; 21.0x17.6x9.1 mm": a unit after the last reading holds for those before it that have none. */
static gboolean
parse_tumour (const char *text, GArray *axes, GError **error)
{
  g_auto (GStrv) readings = g_strsplit (text, ";", -1);
  guint n = g_strv_length (readings);
  const char *unit;

  for (guint i = 0; i < n; i++)
    g_strstrip (readings[i]);
  unit = n > 0 ? unit_of (readings[n - 1]) : "";
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *reading = g_strconcat (readings[i], *unit_of (readings[i]) == '\0' ? unit : "", NULL);
      SwAxes parsed;

      if (!sw_reading_parse (reading, parsed.axis, error))
        return FALSE;
      g_array_append_val (axes, parsed);
    }
  return TRUE;
}

static void
tumour_clear (gpointer data)
{
  g_free ((gpointer) ((SwDoseTumour *) data)->readings);
}

static gboolean
parse_tumours (SwTool *tool, char **texts, GArray *tumours, GError **error)
{
  if (!sw_tool_need (tool, "tumour", texts ? texts[0] : NULL, error))
    return FALSE;
  for (guint i = 0; texts[i] != NULL; i++)
    {
      g_autoptr (GArray) axes = g_array_new (FALSE, FALSE, sizeof (SwAxes));
      SwDoseTumour tumour = { .letter = i };

      if (!sw_tool_need (tool, "tumour", texts[i], error) || !parse_tumour (texts[i], axes, error))
        return FALSE;
      tumour.n_readings = axes->len;
      tumour.readings = (const SwAxes *) (gpointer) g_array_free (g_steal_pointer (&axes), FALSE);
      g_array_append_val (tumours, tumour);
    }
  return TRUE;
}

static void
json_tumour (SwJson *json, const SwTumourDose *tumour)
{
  sw_json_begin_object (json, NULL);
  sw_json_begin_array (json, "mean_mm");
  for (int a = 0; a < SW_N_AXES; a++)
    sw_tool_json_scaled (json, NULL, tumour->measured.sum[a], tumour->measured.count * LENGTHS_PER_MM);
  sw_json_end (json);
  sw_tool_json_ratio (json, "volume_cm3", tumour->volume_cm3);
  sw_json_double (json, "volume_lo_cm3", tumour->interval.lo);
  sw_json_double (json, "volume_hi_cm3", tumour->interval.hi);
  if (tumour->chance_over >= 0)
    sw_json_double (json, "chance_over_limit", tumour->chance_over);
  else
    sw_json_null (json, "chance_over_limit");
  if (tumour->has_dose)
    sw_tool_json_ratio (json, "dose_ml", tumour->dose_ml);
  else
    sw_json_null (json, "dose_ml");
  sw_tool_json_scaled (json, "drawn_ml", tumour->drawn_nl, SW_NL_PER_ML);
  sw_tool_json_scaled (json, "syringe_ml", tumour->syringe_nl, SW_NL_PER_ML);
  sw_json_end (json);
}

/* The number of a tumour on the command line, from 1; null for a limit on the sum. */
static void
json_place (SwJson *json, const SwFinding *finding, const SwDoseResult *result)
{
  const SwArg *letter = sw_finding_arg (finding, "tumour");

  for (guint i = 0; letter != NULL && i < result->tumours->len; i++)
    {
      g_autofree char *own = sw_tumour_letter (g_array_index (result->tumours, SwTumourDose, i).letter);

      if (g_str_equal (own, letter->text))
        {
          sw_json_int (json, "tumour", i + 1);
          return;
        }
    }
  sw_json_null (json, "tumour");
}

static void
json_arg (SwJson *json, const char *key, const SwArg *arg)
{
  if (arg != NULL)
    sw_tool_json_ratio (json, key, (SwRatio){ arg->num, arg->den });
  else
    sw_json_null (json, key);
}

static void
json_refusal (SwJson *json, const SwFinding *finding, const SwDoseResult *result)
{
  g_autofree char *sentence = sw_finding_sentence (finding), *next = sw_finding_next (finding);
  const SwArg *limit = sw_finding_arg (finding, "limit");

  sw_json_begin_object (json, NULL);
  sw_json_string (json, "limit", sw_finding_code (finding->code));
  json_place (json, finding, result);
  json_arg (json, "value", sw_finding_arg (finding, "value"));
  json_arg (json, "most", limit);
  sw_json_string (json, "unit", limit ? limit->text : NULL);
  sw_json_string (json, "sentence", sentence);
  sw_json_string (json, "next", next);
  sw_json_end (json);
}

static void
print_json (const SwShelf *shelf, gint64 grams, const SwDoseResult *result)
{
  g_autoptr (SwJson) json = sw_json_new ();

  sw_json_begin_object (json, NULL);
  sw_shelf_json (shelf, json);
  sw_tool_json_scaled (json, "weight_kg", grams, SW_GRAMS_PER_KG);
  sw_json_begin_array (json, "tumours");
  for (guint i = 0; i < result->tumours->len; i++)
    json_tumour (json, &g_array_index (result->tumours, SwTumourDose, i));
  sw_json_end (json);
  sw_tool_json_scaled (json, "total_ml", result->total_nl, SW_NL_PER_ML);
  if (result->refused || result->left_nl == SW_UNKNOWN)
    sw_json_null (json, "vials");
  else
    sw_json_int (json, "vials", result->vials);
  sw_tool_json_scaled (json, "left_ml", result->left_nl, SW_NL_PER_ML);
  sw_json_begin_array (json, "refusals");
  for (guint i = 0; i < result->refusals->len; i++)
    json_refusal (json, result->refusals->pdata[i], result);
  sw_json_end (json);
  sw_tool_json_notes (json, "notes", result->notes);
  sw_tool_json_why (json, result->why);
  sw_json_end (json);
  sw_tool_print_json (json);
}

static void
print_tumour (const SwTumourDose *tumour)
{
  g_autofree char *letter = sw_tumour_letter (tumour->letter), *volume = sw_volume_format (tumour->volume_cm3);
  g_autofree char *dose = tumour->has_dose ? sw_ratio_format (tumour->dose_ml, 4) : g_strdup ("none");
  g_autofree char *drawn = tumour->drawn_nl != SW_UNKNOWN ? sw_drug_volume_format (tumour->drawn_nl) : NULL;

  printf ("%s  %s cm3 (%.3g to %.3g), dose %s mL", letter, volume, tumour->interval.lo, tumour->interval.hi, dose);
  if (drawn != NULL)
    printf (", draw %s mL in a %d mL syringe", drawn, (int) (tumour->syringe_nl / SW_NL_PER_ML));
  putchar ('\n');
}

static void
print_text (const SwShelf *shelf, const SwDoseResult *result)
{
  sw_shelf_print (shelf);
  for (guint i = 0; i < result->tumours->len; i++)
    print_tumour (&g_array_index (result->tumours, SwTumourDose, i));
  if (!result->refused)
    {
      g_autofree char *total = sw_drug_volume_format (result->total_nl);

      printf ("Together %s mL", total);
      if (result->left_nl != SW_UNKNOWN)
        {
          g_autofree char *left = sw_drug_volume_format (result->left_nl);

          printf (", vials %u, left over %s mL", result->vials, left);
        }
      putchar ('\n');
    }
  sw_tool_print_findings (result->refusals);
  sw_tool_print_findings (result->notes);
  sw_tool_print_why (result->why);
}

/* In a record gate B asks for a second reading; here it is said among the notes. */
static void
note_few_readings (SwDoseResult *result)
{
  for (guint i = 0; i < result->tumours->len; i++)
    {
      const SwTumourDose *tumour = &g_array_index (result->tumours, SwTumourDose, i);
      g_autofree char *letter = sw_tumour_letter (tumour->letter);

      sw_volume_note_few (&tumour->measured, tumour->tumour, letter, result->notes);
    }
}

static SwToolExit
dose (SwTool *tool, const Options *options, GError **error)
{
  g_autoptr (GArray) tumours = g_array_new (FALSE, FALSE, sizeof (SwDoseTumour));
  g_auto (SwShelf) shelf = { 0 };
  g_autoptr (SwDoseResult) result = NULL;
  SwDoseInput input = { .free_day = SW_NO_DAY, .today = SW_NO_DAY };

  g_array_set_clear_func (tumours, tumour_clear);
  if (!sw_shelf_open (&shelf, tool, options->record, options->protocol, error)
      || !sw_tool_parse_weight (tool, options->weight, &input.weight_g, error)
      || !parse_tumours (tool, options->tumours, tumours, error))
    return SW_TOOL_BAD_INPUT;
  input.protocol = shelf.protocol;
  input.reader_error = sw_practice_setting_int (shelf.practice, "reader-error", 0);
  input.tumours = (const SwDoseTumour *) (gpointer) tumours->data;
  input.n_tumours = tumours->len;
  result = sw_dose_compute (&input, error);
  if (result == NULL)
    return SW_TOOL_BAD_INPUT;
  note_few_readings (result);
  if (tool->json)
    print_json (&shelf, input.weight_g, result);
  else
    print_text (&shelf, result);
  return result->refused ? SW_TOOL_REFUSED : SW_TOOL_DONE;
}

SwToolExit
sw_tool_dose (int argc, char **argv)
{
  g_auto (SwTool) tool = { 0 };
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "protocol", 0, 0, G_OPTION_ARG_FILENAME, &options.protocol, "Protocol, e.g. tigilanol-eu", "ID" },
    { "weight", 0, 0, G_OPTION_ARG_FILENAME, &options.weight, "Weight of the dog, e.g. \"24.6 kg\"", "WEIGHT" },
    { "tumour", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options.tumours,
      "Readings of one tumour, e.g. \"21.4x18.0x8.9; 21.0x17.6x9.1 mm\"; once for each tumour", "READINGS" },
    { "record", 0, 0, G_OPTION_ARG_FILENAME, &options.record, "Take the protocol as this record holds it", "DIR" },
    { NULL },
  };
  g_autoptr (GError) error = NULL;
  SwToolExit status = SW_TOOL_BAD_INPUT;

  if (sw_tool_parse (&tool, NULL, "Volumes, doses and limits of a treatment.", entries, argc, argv, &error))
    status = dose (&tool, &options, &error);
  return error != NULL ? sw_tool_fail (&tool, error) : status;
}
