/* sw-gate-injection.c: what the injection brings to the gate: vials, amounts, the second reading aloud
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-gate-private.h"

#include "sw-definitions.h"
#include "sw-quantity.h"
#include "sw-tablet.h"

#include <glib/gi18n-lib.h>

static void
check_day (SwGateAsk *ask, const SwRelease *release, const SwInjection *injection)
{
  SwFinding *finding;

  if (release->day == injection->day)
    return;
  finding = sw_gate_find (ask, SW_FINDING_RELEASE_OVER);
  sw_finding_day (finding, "value", injection->day);
  sw_finding_day (finding, "limit", release->day);
}

/* The document's strength in ug per mL; SW_UNKNOWN when it is no mass. */
static gint64
strength_ug_ml (const SwProtocol *protocol)
{
  return g_strcmp0 (protocol->strength_unit, "mg") == 0 ? protocol->strength : SW_UNKNOWN;
}

static SwFinding *
find_vial (SwGateAsk *ask, SwFindingCode code, const SwVial *vial)
{
  SwFinding *finding = sw_gate_find (ask, code);

  finding->about = g_strdup (vial->lot);
  sw_finding_text (finding, "lot", vial->lot);
  return finding;
}

static void
check_vial (SwGateAsk *ask, const SwVial *vial, SwDay day)
{
  gint64 strength = strength_ug_ml (ask->protocol);
  SwFinding *finding;

  if (g_ascii_strcasecmp (vial->agent, ask->protocol->agent) != 0)
    {
      finding = find_vial (ask, SW_FINDING_VIAL_AGENT, vial);
      sw_finding_text (finding, "value", vial->agent);
      sw_finding_text (finding, "limit", ask->protocol->agent);
    }
  if (strength != SW_UNKNOWN && vial->strength_ug_ml != strength)
    {
      finding = find_vial (ask, SW_FINDING_VIAL_STRENGTH, vial);
      sw_finding_ratio (finding, "value", vial->strength_ug_ml, SW_UG_PER_MG, "mg/mL");
      sw_finding_ratio (finding, "limit", strength, SW_UG_PER_MG, "mg/mL");
    }
  if (vial->expiry < day)
    sw_finding_day (find_vial (ask, SW_FINDING_VIAL_EXPIRED, vial), "limit", vial->expiry);
}

static const SwReleaseTumour *
released_for (const SwCase *c, const SwRelease *release, gint64 tumour)
{
  const SwReleaseTumour *row;

  for (guint i = 0; (row = sw_facts_next (&c->dossier->facts, SW_FACT_RELEASE_TUMOUR, &i)) != NULL;)
    if (row->release == release->fact.id && row->tumour == tumour)
      return row;
  return NULL;
}

static void
find_amount (SwGateAsk *ask, SwFindingCode code, gint64 tumour, gint64 value, gint64 limit)
{
  SwFinding *finding = sw_gate_find_tumour (ask, code, tumour);

  sw_finding_ratio (finding, "value", value, SW_NL_PER_ML, "mL");
  sw_finding_ratio (finding, "limit", limit, SW_NL_PER_ML, "mL");
}

/* given <= drawn <= released; less needs a reason. */
static void
check_amount (SwGateAsk *ask, const SwRelease *release, const SwInjectionTumour *row)
{
  const SwReleaseTumour *released = released_for (ask->c, release, row->tumour);

  if (released == NULL)
    {
      sw_gate_find_tumour (ask, SW_FINDING_TUMOUR_NOT_RELEASED, row->tumour);
      return;
    }
  if (row->drawn_nl > released->drawn_nl)
    find_amount (ask, SW_FINDING_DRAWN_OVER, row->tumour, row->drawn_nl, released->drawn_nl);
  if (row->given_nl > row->drawn_nl)
    find_amount (ask, SW_FINDING_GIVEN_OVER, row->tumour, row->given_nl, row->drawn_nl);
  if (row->given_nl < released->drawn_nl && (row->reason == NULL || *row->reason == '\0'))
    find_amount (ask, SW_FINDING_LESS_GIVEN, row->tumour, row->given_nl, released->drawn_nl);
}

static void
check_read_aloud (SwGateAsk *ask, const SwReadAloud *row, const SwInjection *injection)
{
  SwFinding *finding;

  if (row == NULL || row->day != injection->day)
    sw_gate_find (ask, SW_FINDING_NOT_READ_AFTER_DRAWING);
  else if (!row->alone && row->second == injection->injector)
    {
      finding = sw_gate_find (ask, SW_FINDING_SAME_PERSON);
      sw_finding_text (finding, "person", sw_practice_person_name (ask->c->practice, row->second));
      sw_finding_count (finding, "limit", sw_definition_whole (SW_DEF_SECOND_LOOK));
    }
}

GPtrArray *
sw_gate_injection (const SwCase *c, const SwInjectionRecord *record)
{
  SwGateAsk ask = { c, sw_case_protocol (c), sw_case_plan (c), sw_findings_new () };
  const SwRelease *release = sw_dossier_release (c->dossier, c->course);

  if (ask.protocol == NULL || release == NULL)
    {
      sw_gate_find (&ask, SW_FINDING_NOT_RELEASED);
      return ask.findings;
    }
  check_day (&ask, release, record->injection);
  if (record->vials->len == 0)
    sw_gate_find (&ask, SW_FINDING_NO_VIAL);
  for (guint i = 0; i < record->vials->len; i++)
    check_vial (&ask, record->vials->pdata[i], record->injection->day);
  for (guint i = 0; i < record->tumours->len; i++)
    check_amount (&ask, release, record->tumours->pdata[i]);
  check_read_aloud (&ask, record->read_aloud, record->injection);
  return ask.findings;
}
