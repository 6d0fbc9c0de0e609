/* sw-summary.c: the line of a course in the patient list
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-store-private.h"

#include "sw-stmt-private.h"

gboolean
sw_store_put_summary (SwStore *store, const SwCourseSummary *summary, GError **error)
{
  static const char sql[] = "INSERT INTO course_summary (course, patient, stage, due_day, due_minute, open)"
                            " VALUES (?1, ?2, ?3, ?4, ?5, ?6)"
                            " ON CONFLICT (course) DO UPDATE SET stage = excluded.stage, due_day = excluded.due_day,"
                            " due_minute = excluded.due_minute, open = excluded.open";
  g_autoptr (SwStmt) stmt = NULL;

  if (!sw_txn_require_write (store, error) || (stmt = sw_stmt_get (store->db, sql, error)) == NULL)
    return FALSE;
  sw_stmt_bind_int (stmt, 1, summary->course);
  sw_stmt_bind_int (stmt, 2, summary->patient);
  sw_stmt_bind_text (stmt, 3, summary->stage);
  sw_stmt_bind_int_or_null (stmt, 4, summary->due_day, SW_NO_DAY);
  sw_stmt_bind_int_or_null (stmt, 5, summary->due_minute, SW_UNKNOWN);
  sw_stmt_bind_int (stmt, 6, summary->open);
  return sw_stmt_run (stmt, error);
}
