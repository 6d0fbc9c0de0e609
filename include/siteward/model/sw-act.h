/* sw-act.h: every kind of act, and the one table that says which role may do it
 *
 * An act is what a person does at the desk: one transaction, one journal line. The table is that of domain 10; store asks it for
 * every act, so no other place decides about roles.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-values.h"

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  SW_ACT_FOUND_RECORD,       /* the founding act: the first person, the zone */
  SW_ACT_REGISTER_CLIENT,
  SW_ACT_REGISTER_PATIENT,
  SW_ACT_WEIGH,
  SW_ACT_RECORD_READING,
  SW_ACT_RECORD_RECHECK,     /* visit, wound, size, look */
  SW_ACT_RECORD_DOSE,        /* tick a dose: given, late, missed, vomited */
  SW_ACT_RECORD_CONTACT,     /* calls, attempts to reach the client */
  SW_ACT_RECORD_CONSENT,     /* received or withdrawn */
  SW_ACT_RECORD_MEDICINE_TAKEN, /* medicine history as the client tells it */
  SW_ACT_REGISTER_TUMOUR,
  SW_ACT_SECOND_CHECK,       /* reading aloud */
  SW_ACT_MOVE_DAY,           /* on the vet's word */
  SW_ACT_ASK_TODAY,          /* questions of the treatment day; observation after it */
  SW_ACT_ANSWER_WORK_UP,     /* work-up facts */
  SW_ACT_GIVE_REASON,        /* the vet's reason for a finding */
  SW_ACT_OPEN_COURSE,
  SW_ACT_SIGN_PLAN,
  SW_ACT_ORDER_REPLACEMENT,  /* decide a missed or vomited dose */
  SW_ACT_STOP_DOSE,
  SW_ACT_RELEASE_DOSE,
  SW_ACT_RECORD_INJECTION,
  SW_ACT_DISCHARGE,
  SW_ACT_SCORE,
  SW_ACT_RECORD_RECURRENCE,
  SW_ACT_AMEND_RELEASED,     /* correct anything that a released dose, an injection or a score rests on */
  SW_ACT_END_COURSE,
  SW_ACT_ADOPT_DOCUMENT,
  SW_ACT_CHANGE_SETTING,     /* clinical settings: hours, washouts, stocked strengths, zone */
  SW_ACT_MANAGE_PEOPLE,      /* people, practice name and address */
  SW_ACT_KEEP_RECORD,        /* backup, restore, import, export */
  SW_N_ACTS
} SwActKind;

/* Whether a person with these roles (SwRole bits) may do it. The founding act is open to anyone, once. */
gboolean sw_act_allowed (SwActKind kind, gint64 roles);

/* The roles that may, as SwRole bits: for the sentence of a refusal. */
gint64 sw_act_roles (SwActKind kind);

/* Stable code kept in the journal ("release-dose"), and the name people read ("release the dose"). */
const char *sw_act_code (SwActKind kind);
const char *sw_act_name (SwActKind kind);
int sw_act_from_code (const char *code);

G_END_DECLS
