/* sw-workup-findings.h: what a work-up has found so far, and where on the page each finding is settled
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-finding.h"
#include "sw-page-context.h"
#include "sw-question.h"

G_BEGIN_DECLS

typedef enum
{
  SW_PLACE_NOWHERE,
  SW_PLACE_QUESTION,
  SW_PLACE_READINGS,
  SW_PLACE_MEDICINES,
  SW_PLACE_COURSE,
  SW_PLACE_CONSENT,
  SW_PLACE_TUMOUR_DETAILS, /* the dialogs that correct or weigh, and other pages */
  SW_PLACE_PATIENT_DETAILS,
  SW_PLACE_WEIGHT,
  SW_PLACE_PRACTICE,
  SW_PLACE_LEAD_IN,
  SW_PLACE_RESPONSE,
  SW_N_PLACES
} SwPlaceKind;

/* Where a finding is settled. */
typedef struct
{
  SwPlaceKind kind;
  const SwQuestion *question; /* SW_PLACE_QUESTION */
  gint64 tumour;              /* 0: of the dog */
} SwPlace;

SwPlace sw_place_of_finding (const SwCase *c, const SwFinding *finding);
/* What a button that leads there from a finding of this severity says: "Answer It"; NULL: nowhere. */
const char *sw_place_act (SwPlaceKind kind, SwSeverity severity);

/* The medicines that a finding is about: its `about` names them. */
gboolean sw_finding_is_about_substance (const SwFinding *finding, const char *substance);

/* The context as a work-up shows it, for the time of one update. */
typedef struct
{
  const SwPageContext *context;
  SwCase c;
  GPtrArray *findings; /* owned SwFinding: all, those that are met among them; empty without a course and once it is treated */
  GPtrArray *open;     /* owned SwFinding: those that still block */
} SwWorkUp;

SwWorkUp *sw_work_up_new (const SwPageContext *context);
void sw_work_up_free (SwWorkUp *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwWorkUp, sw_work_up_free)

/* The worst finding that is settled at this question; NULL: none is found there. (transfer none) */
const SwFinding *sw_work_up_of_question (const SwWorkUp *self, const SwQuestion *question, gint64 tumour);

G_END_DECLS
