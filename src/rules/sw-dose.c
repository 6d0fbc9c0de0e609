/* sw-dose.c: doses of one treatment, in the order of arithmetic of the protocol
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-private.h"

#include "sw-error.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>

static SwRatio
in_cm3 (gint64 units)
{
  return sw_ratio (units, SW_VOLUME_UNITS_PER_CM3);
}

/* Whether a volume lies on the inner side of one end of a tier. */
static gboolean
is_beyond (SwRatio volume, gint64 end, gboolean included, int side)
{
  int order;

  if (end == SW_UNKNOWN)
    return TRUE;
  if (!sw_ratio_compare (volume, in_cm3 (end), &order))
    return FALSE;
  return order == 0 ? included : (order > 0) == (side > 0);
}

const SwTier *
sw_dose_tier (const SwProtocol *protocol, SwRatio volume_cm3)
{
  for (guint i = 0; i < protocol->tiers->len; i++)
    {
      const SwTier *tier = protocol->tiers->pdata[i];

      if (is_beyond (volume_cm3, tier->from, tier->from_included, 1)
          && is_beyond (volume_cm3, tier->to, tier->to_included, -1))
        return tier;
    }
  return NULL;
}

static int
compare_letters (gconstpointer a, gconstpointer b)
{
  const SwTumourDose *first = *(const SwTumourDose *const *) a, *second = *(const SwTumourDose *const *) b;

  return (first->letter > second->letter) - (first->letter < second->letter);
}

GPtrArray *
sw_dose_by_letter (const SwDoseResult *result)
{
  GPtrArray *tumours = g_ptr_array_new ();

  for (guint i = 0; i < result->tumours->len; i++)
    g_ptr_array_add (tumours, &g_array_index (result->tumours, SwTumourDose, i));
  g_ptr_array_sort (tumours, compare_letters);
  return tumours;
}

SwFinding *
sw_dose_finding (SwFindingCode code, const SwTumourDose *tumour)
{
  SwFinding *finding = sw_finding_new (code);
  g_autofree char *letter = sw_tumour_letter (tumour->letter);

  finding->tumour = tumour->tumour;
  sw_finding_text (finding, "tumour", letter);
  return finding;
}

void
sw_dose_basis (const SwProtocol *protocol, const char *figure, const char **source, const char **mark)
{
  const SwFigure *row = sw_protocol_figure (protocol, figure);

  *source = row ? sw_document_source_title (&protocol->head, row) : NULL;
  *mark = row ? sw_figure_mark_code (row->mark) : NULL;
}

static void
refuse_arithmetic (SwDoseResult *result, const SwTumourDose *tumour)
{
  g_ptr_array_add (result->refusals, sw_dose_finding (SW_FINDING_ARITHMETIC, tumour));
}

/* The floor: never less than the least dose, whatever the volume. */
static gboolean
floor_dose (const SwProtocol *protocol, SwTumourDose *tumour)
{
  SwRatio least = sw_ratio (MAX (protocol->least_dose_nl, 0), SW_NL_PER_ML);
  int order;

  if (!sw_ratio_compare (tumour->raw_ml, least, &order))
    return FALSE;
  tumour->dose_ml = order < 0 ? least : tumour->raw_ml;
  return TRUE;
}

/* What the interval of the volume means for the dose, by the rule that holds at the point estimate. */
static void
interval_of_dose (const SwProtocol *protocol, const SwTier *tier, SwTumourDose *tumour)
{
  double rate = sw_ratio_to_double (sw_ratio (tier->nl_per_cm3, SW_NL_PER_ML));
  double least = sw_ratio_to_double (sw_ratio (MAX (protocol->least_dose_nl, 0), SW_NL_PER_ML));

  tumour->dose_lo_ml = MAX (tumour->interval.lo * rate, least);
  tumour->dose_hi_ml = MAX (tumour->interval.hi * rate, least);
}

/* FALSE on overflow. At an edge of tiers there is no dose, and that is no overflow. */
static gboolean
dose_tumour (const SwDoseInput *input, SwTumourDose *tumour)
{
  const SwProtocol *protocol = input->protocol;
  const SwTier *tier;
  double cm3;

  if (!sw_volume_cm3 (&tumour->measured, protocol->volume_rule, &tumour->volume_cm3))
    return FALSE;
  cm3 = sw_ratio_to_double (tumour->volume_cm3);
  tumour->interval = sw_volume_interval (&tumour->measured, protocol->volume_rule, input->reader_error, cm3);
  tumour->chance_over = -1;
  if (protocol->largest_tumour != SW_UNKNOWN)
    tumour->chance_over =
        sw_volume_chance_over (&tumour->interval, cm3, sw_ratio_to_double (in_cm3 (protocol->largest_tumour)));
  tier = sw_dose_tier (protocol, tumour->volume_cm3);
  if (tier == NULL)
    return TRUE;
  tumour->has_dose = TRUE;
  interval_of_dose (protocol, tier, tumour);
  return sw_ratio_mul (tumour->volume_cm3, sw_ratio (tier->nl_per_cm3, SW_NL_PER_ML), &tumour->raw_ml)
         && floor_dose (protocol, tumour);
}

/* Doses of all tumours and their sum; an overflow refuses. */
static SwRatio
dose_all (const SwDoseInput *input, SwDoseResult *result)
{
  g_autoptr (GPtrArray) tumours = sw_dose_by_letter (result);
  SwRatio total = sw_ratio (0, 1);

  for (guint i = 0; i < tumours->len; i++)
    {
      SwTumourDose *tumour = tumours->pdata[i];

      if (!dose_tumour (input, tumour)
          || (tumour->has_dose && !sw_ratio_add (total, tumour->dose_ml, &total)))
        refuse_arithmetic (result, tumour);
    }
  return total;
}

static gboolean
check_protocol (const SwProtocol *protocol, GError **error)
{
  for (guint i = 0; i < protocol->tiers->len; i++)
    if (((const SwTier *) protocol->tiers->pdata[i])->nl_per_cm3 == SW_UNKNOWN)
      {
        g_set_error (
            error, SW_ERROR, SW_ERROR_DOCUMENT,
            _("The protocol %s has no dose per volume yet; a vet fills it in before a dose can be worked out."),
            protocol->head.id);
        return FALSE;
      }
  return TRUE;
}

static gboolean
check_input (const SwDoseInput *input, GError **error)
{
  gint64 most = sw_definition_whole (SW_DEF_TUMOURS_MOST);

  if (input->weight_g <= 0)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT, _("There is no weight; weigh the dog."));
  else if (input->n_tumours == 0)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_INPUT, _("There is no tumour to dose; choose one and measure it."));
  else if (input->n_tumours > most)
    g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                 _("%u tumours are more than the %d that one treatment takes; leave some for later."), input->n_tumours,
                 (int) most);
  else
    return check_protocol (input->protocol, error);
  return FALSE;
}

static gboolean
measure_tumour (const SwDoseTumour *from, SwDoseResult *result, GError **error)
{
  SwTumourDose tumour = {
    .tumour = from->tumour, .letter = from->letter, .drawn_nl = SW_UNKNOWN, .syringe_nl = SW_UNKNOWN
  };
  g_autofree char *letter = sw_tumour_letter (from->letter);

  if (!sw_volume_measure (from->readings, from->n_readings, &tumour.measured))
    {
      if (from->n_readings == 0)
        g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("Tumour %s has no reading; measure it."), letter);
      else
        g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                     _("Tumour %s has %u readings; at most %d count, each of three lengths. Record fewer."), letter,
                     from->n_readings, (int) sw_definition_whole (SW_DEF_READINGS_MOST));
      return FALSE;
    }
  g_array_append_val (result->tumours, tumour);
  return TRUE;
}

static SwDoseResult *
result_new (void)
{
  SwDoseResult *result = g_new0 (SwDoseResult, 1);

  result->tumours = g_array_new (FALSE, FALSE, sizeof (SwTumourDose));
  result->total_nl = SW_UNKNOWN;
  result->left_nl = SW_UNKNOWN;
  result->refusals = sw_findings_new ();
  result->notes = sw_findings_new ();
  result->why = sw_whys_new ();
  result->shares = g_array_new (FALSE, FALSE, sizeof (SwDoseShare));
  return result;
}

/* What is opened for the sum, and what is left over: the rest of a single-use vial is never offered again. */
static void
count_vials (const SwProtocol *protocol, SwDoseResult *result)
{
  gint64 vial = protocol->vial_nl;

  if (vial == SW_UNKNOWN || vial <= 0)
    return;
  result->vials = (guint) ((result->total_nl + vial - 1) / vial);
  result->left_nl = result->vials * vial - result->total_nl;
}

static void
total_up (const SwDoseInput *input, SwDoseResult *result)
{
  result->total_nl = 0;
  for (guint i = 0; i < result->tumours->len; i++)
    result->total_nl += g_array_index (result->tumours, SwTumourDose, i).drawn_nl;
  count_vials (input->protocol, result);
}

SwDoseResult *
sw_dose_compute (const SwDoseInput *input, GError **error)
{
  g_autoptr (SwDoseResult) result = NULL;
  SwRatio total;

  if (!check_input (input, error))
    return NULL;
  result = result_new ();
  for (guint i = 0; i < input->n_tumours; i++)
    if (!measure_tumour (&input->tumours[i], result, error))
      return NULL;
  total = dose_all (input, result);
  sw_dose_refuse_volumes (input, result);
  sw_dose_refuse_sums (input, result, total);
  sw_dose_refuse_edges (input, result);
  if (result->refusals->len == 0 && sw_dose_draw (input, result))
    total_up (input, result);
  result->refused = result->refusals->len > 0;
  sw_dose_note (input, result);
  sw_dose_explain (input, result);
  sw_dose_share (input, result, total);
  return g_steal_pointer (&result);
}

void
sw_dose_result_free (SwDoseResult *result)
{
  if (result == NULL)
    return;
  g_array_unref (result->tumours);
  g_ptr_array_unref (result->refusals);
  g_ptr_array_unref (result->notes);
  g_ptr_array_unref (result->why);
  g_array_unref (result->shares);
  g_free (result);
}
