/* sw-dose-private.h: the parts of a dose, for this room only
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dose.h"

G_BEGIN_DECLS

/* Limits of the whole treatment in mL, with what they leave; a limit that the protocol does not name is absent. */
typedef struct
{
  gboolean has_weight;
  SwRatio weight_ml;
  gboolean has_treatment;
  SwRatio treatment_ml;
} SwDoseLimits;

/* FALSE on overflow. */
gboolean sw_dose_limits (const SwDoseInput *input, SwDoseLimits *limits) G_GNUC_WARN_UNUSED_RESULT;

/* The tier that holds a volume, NULL exactly at an edge that no tier owns. */
const SwTier *sw_dose_tier (const SwProtocol *protocol, SwRatio volume_cm3);

/* A finding about one tumour of the result, with its letter. */
SwFinding *sw_dose_finding (SwFindingCode code, const SwTumourDose *tumour);

/* Basis of a finding or a line: source and mark of a figure of the protocol. */
void sw_dose_basis (const SwProtocol *protocol, const char *figure, const char **source, const char **mark);

/* Adds a refusal for every limit that the doses breach. */
void sw_dose_refuse_volumes (const SwDoseInput *input, SwDoseResult *result);
void sw_dose_refuse_sums (const SwDoseInput *input, SwDoseResult *result, SwRatio total_ml);
void sw_dose_refuse_edges (const SwDoseInput *input, SwDoseResult *result);

/* Rounds every dose to its syringe and steps down until the sum fits. FALSE: it can't, and the refusal is added. */
gboolean sw_dose_draw (const SwDoseInput *input, SwDoseResult *result);

/* Adds notes and derivation. */
void sw_dose_note (const SwDoseInput *input, SwDoseResult *result);
void sw_dose_explain (const SwDoseInput *input, SwDoseResult *result);

/* What the treatment takes of each limit; @total_ml of all tumours. */
void sw_dose_share (const SwDoseInput *input, SwDoseResult *result, SwRatio total_ml);

/* The tumours of a result by letter, whatever the order of the input. (transfer container) SwTumourDose */
GPtrArray *sw_dose_by_letter (const SwDoseResult *result);

G_END_DECLS
