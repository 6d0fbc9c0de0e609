/* sw-gate-section-private.h: where the gate before the needle stands, and each thing that still blocks with what
 * cures it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_GATE_SECTION (sw_gate_section_get_type ())
G_DECLARE_FINAL_TYPE (SwGateSection, sw_gate_section, SW, GATE_SECTION, SwTreatmentSection)

/* Signal: cure (SwFinding *finding): go to what cures it; the page knows where that is. */

/* The list of what blocks goes right above the release, so it is a widget of its own. */
GtkWidget *sw_gate_section_get_list (SwGateSection *self);

/* What still blocks the release, the dose's refusals behind the gate's, in the order in which the foot line names them.
 * (transfer full) */
GPtrArray *sw_gate_section_blocks (const SwPageContext *context);

/* The act beside a finding in this list; NULL: it has none, or is not listed. */
GtkWidget *sw_gate_section_act_of (SwGateSection *self, const SwFinding *finding);

/* The page of the step at which something is cured; NULL: this page. */
const char *sw_gate_step_of (const SwFinding *finding);

G_END_DECLS
