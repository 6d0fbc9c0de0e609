/* sw-workup-consent.h: the client's consent to the course (domain 6)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-workup-section.h"

G_BEGIN_DECLS

#define SW_TYPE_WORKUP_CONSENT (sw_workup_consent_get_type ())
G_DECLARE_FINAL_TYPE (SwWorkUpConsent, sw_workup_consent, SW, WORKUP_CONSENT, SwWorkUpSection)

/* For tests. */
typedef struct
{
  GtkWidget *signer;
  GtkWidget *day; /* SwQuantityEntry */
  GtkWidget *sheet_version;
  GtkWidget *off_label;
  GtkWidget *points[7]; /* in the order of SwConsentPoint */
  GtkWidget *note;
  GtkWidget *record;
  GtkWidget *withdraw;
} SwConsentFields;

const SwConsentFields *sw_workup_consent_get_fields (SwWorkUpConsent *self);

G_END_DECLS
