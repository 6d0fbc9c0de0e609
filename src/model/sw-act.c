/* sw-act.c: the one act x role table (domain 10)
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-act.h"

#include <glib/gi18n-lib.h>

#define CARE (SW_ROLE_TECHNICIAN | SW_ROLE_VET)
#define VET SW_ROLE_VET
#define MANAGER SW_ROLE_MANAGER

static const struct
{
  const char *code;
  const char *name;
  gint64 roles;
} acts[SW_N_ACTS] = {
  [SW_ACT_FOUND_RECORD] = { "found-record", N_("found the record"), SW_ALL_ROLES },
  [SW_ACT_REGISTER_CLIENT] = { "register-client", N_("register a client"), CARE },
  [SW_ACT_REGISTER_PATIENT] = { "register-patient", N_("register a patient"), CARE },
  [SW_ACT_WEIGH] = { "weigh", N_("record a weight"), CARE },
  [SW_ACT_RECORD_READING] = { "record-reading", N_("record a caliper reading"), CARE },
  [SW_ACT_RECORD_RECHECK] = { "record-recheck", N_("record a recheck"), CARE },
  [SW_ACT_RECORD_DOSE] = { "record-dose", N_("record what became of a dose"), CARE },
  [SW_ACT_RECORD_CONTACT] = { "record-contact", N_("record a call"), CARE },
  [SW_ACT_RECORD_CONSENT] = { "record-consent", N_("record the client's consent or its withdrawal"), CARE },
  [SW_ACT_RECORD_MEDICINE_TAKEN] = { "record-medicine-taken", N_("record a medicine the dog takes or took"), CARE },
  [SW_ACT_REGISTER_TUMOUR] = { "register-tumour", N_("register a tumour"), CARE },
  [SW_ACT_SECOND_CHECK] = { "second-check", N_("record the reading aloud"), CARE },
  [SW_ACT_MOVE_DAY] = { "move-day", N_("move the treatment day on the vet's word"), CARE },
  [SW_ACT_ASK_TODAY] = { "ask-today", N_("answer the questions of the treatment day"), CARE },
  [SW_ACT_ANSWER_WORK_UP] = { "answer-work-up", N_("record a fact of the work-up"), VET },
  [SW_ACT_GIVE_REASON] = { "give-reason", N_("give a reason for a finding"), VET },
  [SW_ACT_OPEN_COURSE] = { "open-course", N_("open a course"), VET },
  [SW_ACT_SIGN_PLAN] = { "sign-plan", N_("sign the plan of medicines"), VET },
  [SW_ACT_ORDER_REPLACEMENT] = { "order-replacement", N_("decide a missed or vomited dose"), VET },
  [SW_ACT_STOP_DOSE] = { "stop-dose", N_("stop a dose"), VET },
  [SW_ACT_RELEASE_DOSE] = { "release-dose", N_("release the dose"), VET },
  [SW_ACT_RECORD_INJECTION] = { "record-injection", N_("record the injection"), VET },
  [SW_ACT_DISCHARGE] = { "discharge", N_("discharge the dog"), VET },
  [SW_ACT_SCORE] = { "score", N_("score the response"), VET },
  [SW_ACT_RECORD_RECURRENCE] = { "record-recurrence", N_("record a recurrence"), VET },
  [SW_ACT_AMEND_RELEASED] = { "amend-released", N_("amend what a release, an injection or a score rests on"), VET },
  [SW_ACT_END_COURSE] = { "end-course", N_("end a course"), VET },
  [SW_ACT_ADOPT_DOCUMENT] = { "adopt-document", N_("adopt a document"), VET },
  [SW_ACT_CHANGE_SETTING] = { "change-setting", N_("change a clinical setting"), VET },
  [SW_ACT_MANAGE_PEOPLE] = { "manage-people", N_("manage people and the practice's name and address"), MANAGER },
  [SW_ACT_KEEP_RECORD] = { "keep-record", N_("back up, restore, import or export the record"), MANAGER },
};

gboolean
sw_act_allowed (SwActKind kind, gint64 roles)
{
  /* Nobody has a role yet when a record is founded; that it happens once is store's to see. */
  return kind == SW_ACT_FOUND_RECORD || (sw_act_roles (kind) & roles) != 0;
}

gint64
sw_act_roles (SwActKind kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_ACTS, 0);
  return acts[kind].roles;
}

const char *
sw_act_code (SwActKind kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_ACTS, NULL);
  return acts[kind].code;
}

const char *
sw_act_name (SwActKind kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_ACTS, NULL);
  return _(acts[kind].name);
}

int
sw_act_from_code (const char *code)
{
  for (int kind = 0; kind < SW_N_ACTS; kind++)
    if (g_strcmp0 (acts[kind].code, code) == 0)
      return kind;
  return -1;
}
