/* sw-load.c: reading everything about the practice, or about one dog
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-store-private.h"

#include "sw-row-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

static gboolean
load_scope (SwStore *store, SwScope scope, SwRows rows, gint64 key, SwFacts *facts, GError **error)
{
  for (int kind = 0; kind < SW_N_FACTS; kind++)
    if (sw_fact_type ((SwFactKind) kind)->scope == scope
        && !sw_row_load (store->db, (SwFactKind) kind, rows, key, facts, error))
      return FALSE;
  return TRUE;
}

SwPractice *
sw_store_load_practice (SwStore *store, GError **error)
{
  g_autoptr (SwPractice) practice = sw_practice_new ();
  gboolean began, done;

  practice->practice_only = store->practice_only;
  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  done = load_scope (store, SW_SCOPE_PRACTICE, SW_ROWS_ALL, 0, &practice->facts, error);
  sw_txn_leave_read (store, began);
  return done ? g_steal_pointer (&practice) : NULL;
}

static gboolean
load_client (SwStore *store, SwDossier *dossier, GError **error)
{
  const SwPatientDetails *details = sw_dossier_patient (dossier);

  return details == NULL
         || load_scope (store, SW_SCOPE_CLIENT, SW_ROWS_OF_CLIENT, details->client, &dossier->facts, error);
}

static gboolean
require_patient (const SwDossier *dossier, GError **error)
{
  g_autofree char *number = NULL;

  if (dossier->facts.rows[SW_FACT_PATIENT]->len > 0)
    return TRUE;
  number = sw_patient_number (dossier->patient);
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("There is no patient %s in this record."), number);
  return FALSE;
}

SwDossier *
sw_store_load_dossier (SwStore *store, gint64 patient, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_dossier_new (patient);
  gboolean began, done;

  if (!sw_txn_enter_read (store, &began, error))
    return NULL;
  done = load_scope (store, SW_SCOPE_PATIENT, SW_ROWS_OF_PATIENT, patient, &dossier->facts, error)
         && require_patient (dossier, error) && load_client (store, dossier, error);
  sw_txn_leave_read (store, began);
  return done ? g_steal_pointer (&dossier) : NULL;
}
