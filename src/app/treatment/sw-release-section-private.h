/* sw-release-section-private.h: the reading aloud and the release of the dose
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-treatment-section-private.h"

G_BEGIN_DECLS

#define SW_TYPE_RELEASE_SECTION (sw_release_section_get_type ())
G_DECLARE_FINAL_TYPE (SwReleaseSection, sw_release_section, SW, RELEASE_SECTION, SwTreatmentSection)

/* Signal: blocked (SwFinding *first): the release was pressed while this blocks it. */

G_END_DECLS
