/* sw-patient-list.h: the patients that match a search, as a list model for 200,000
 *
 *   store: ids that match, in order ---> spine (array of ids) ---> GListModel: n = spine length
 *   store: rows of a page of ids    ---> item cache (id -> SwPatientRow, the same object while anyone holds it)
 *
 * Filter and sort are the database's. A row is empty (loaded FALSE) until its page arrives, then it notifies.
 * Refreshing strips what the old and the new spine have in common at both ends and emits one items-changed for the
 * rest; an older answer is dropped. Own the selection as a patient id, not a position.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/* One line of the list. Properties: patient (int64), name, client, number, stage (code, "" without a course), due-day,
 * due-minute (int64, SW_UNKNOWN: nothing due), loaded. All notify when the row is filled or refreshed. */
#define SW_TYPE_PATIENT_ROW (sw_patient_row_get_type ())
G_DECLARE_FINAL_TYPE (SwPatientRow, sw_patient_row, SW, PATIENT_ROW, GObject)

gint64 sw_patient_row_get_patient (SwPatientRow *self);
const char *sw_patient_row_get_name (SwPatientRow *self);
const char *sw_patient_row_get_client (SwPatientRow *self);
const char *sw_patient_row_get_number (SwPatientRow *self);
const char *sw_patient_row_get_stage (SwPatientRow *self);
SwMoment sw_patient_row_get_due (SwPatientRow *self);
gboolean sw_patient_row_get_loaded (SwPatientRow *self);

/* Properties: search (string), show (int, SwShow), loading. Signals: refreshed (), a spine has been taken over; failed
 * (sentence), it or rows of it could not be read: what the list shows stays as it was. */
#define SW_TYPE_PATIENT_LIST (sw_patient_list_get_type ())
G_DECLARE_FINAL_TYPE (SwPatientList, sw_patient_list, SW, PATIENT_LIST, GObject)

/* Follows the record's changes from then on. */
SwPatientList *sw_patient_list_new (SwRecord *record);
/* Beginnings of words of patient, client or number. */
void sw_patient_list_set_search (SwPatientList *self, const char *text);
const char *sw_patient_list_get_search (SwPatientList *self);
void sw_patient_list_set_show (SwPatientList *self, SwShow show);
SwShow sw_patient_list_get_show (SwPatientList *self);
gboolean sw_patient_list_get_loading (SwPatientList *self);
/* Where a patient stands in the list. */
gboolean sw_patient_list_find (SwPatientList *self, gint64 patient, guint *position);

G_END_DECLS
