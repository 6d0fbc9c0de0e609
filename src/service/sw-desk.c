/* sw-desk.c: one open record and a clock: performs requests
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-desk-private.h"

#include "sw-error.h"

#include <glib/gi18n-lib.h>

struct _SwDesk
{
  SwStore *store;
  SwClock *clock;
  SwPractice *practice;
  SwBooks *books;
  GTimeZone *zone;
  gint64 seen;      /* the journal line up to which `practice` is known to be right; 0: not read yet */
  gboolean stale;   /* this desk wrote about the practice since */
  gboolean batched;
  gint64 batch;
};

static const SwOperate operations[SW_N_REQUESTS] = {
  [SW_REQUEST_TICK] = sw_operate_tick,
  [SW_REQUEST_OPEN_COURSE] = sw_operate_open_course,
  [SW_REQUEST_SIGN_PLAN] = sw_operate_sign_plan,
  [SW_REQUEST_MOVE_DAY] = sw_operate_move_day,
  [SW_REQUEST_REWEIGH_PLAN] = sw_operate_reweigh_plan,
  [SW_REQUEST_ORDER_REPLACEMENT] = sw_operate_order_replacement,
  [SW_REQUEST_STOP_DOSE] = sw_operate_stop_dose,
  [SW_REQUEST_RELEASE] = sw_operate_release,
  [SW_REQUEST_INJECTION] = sw_operate_injection,
  [SW_REQUEST_ADOPT] = sw_operate_adopt,
  [SW_REQUEST_SCORE] = sw_operate_score,
  [SW_REQUEST_END_COURSE] = sw_operate_end_course,
};

/* --- the practice, as this transaction sees it --- */

static gboolean
load_practice (SwDesk *desk, GError **error)
{
  g_autoptr (SwPractice) practice = sw_store_load_practice (desk->store, error);
  g_autoptr (SwBooks) books = practice ? sw_books_new (practice, error) : NULL;
  GTimeZone *zone;

  if (books == NULL)
    return FALSE;
  zone = g_time_zone_new_identifier (sw_practice_zone (practice));
  if (zone == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("The time zone “%s” of this record is not known on this machine."),
                   sw_practice_zone (practice));
      return FALSE;
    }
  g_clear_pointer (&desk->zone, g_time_zone_unref);
  desk->zone = zone;
  g_clear_pointer (&desk->books, sw_books_unref);
  desk->books = g_steal_pointer (&books);
  sw_practice_free (desk->practice);
  desk->practice = g_steal_pointer (&practice);
  desk->stale = FALSE;
  return TRUE;
}

/* Whatever is written after the line that is looked up first is read again at the next look. */
static gboolean
read_practice (SwDesk *desk, GError **error)
{
  gint64 last = sw_store_last_act (desk->store, error);

  if (last < 0 || !load_practice (desk, error))
    return FALSE;
  desk->seen = last;
  return TRUE;
}

static gboolean
refresh_practice (SwDesk *desk, GError **error)
{
  g_autoptr (SwChanges) changes = NULL;

  if (desk->seen == 0)
    return read_practice (desk, error);
  if (desk->batched && !desk->stale) /* nobody else writes during a batch */
    return TRUE;
  changes = sw_store_changes_after (desk->store, desk->seen, error);
  if (changes == NULL)
    return FALSE;
  desk->seen = changes->last;
  return !changes->practice || load_practice (desk, error);
}

/* --- opening and closing --- */

static SwDesk *
desk_new (SwStore *store, SwClock *clock, GError **error)
{
  g_autoptr (SwDesk) desk = g_new0 (SwDesk, 1);

  desk->store = store;
  desk->clock = sw_clock_ref (clock);
  if (sw_clock_is_scripted (clock) && !sw_store_is_practice_only (store))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_RECORD,
                   _("A set time (--at) is only for records made for practice; this is a live record."));
      return NULL;
    }
  return refresh_practice (desk, error) ? g_steal_pointer (&desk) : NULL;
}

SwDesk *
sw_desk_open (const char *directory, SwClock *clock, GError **error)
{
  SwStore *store = sw_store_open (directory, SW_STORE_WRITE, error);

  return store ? desk_new (store, clock, error) : NULL;
}

static gboolean
name_practice (SwDesk *desk, const char *name, GError **error)
{
  g_autoptr (SwRequest) request = sw_request_new (SW_ACT_MANAGE_PEOPLE, 1, 0);
  SwSetting *setting = sw_new (SW_FACT_SETTING, SwSetting);
  g_autoptr (SwReply) reply = NULL;

  setting->key = g_strdup ("name");
  setting->value = g_strdup (name);
  sw_request_add (request, setting);
  reply = sw_desk_perform (desk, request, error);
  return reply != NULL;
}

SwDesk *
sw_desk_found (const char *directory, const SwFounding *founding, SwClock *clock, GError **error)
{
  g_autoptr (GTimeZone) zone = founding->zone ? g_time_zone_new_identifier (founding->zone) : g_time_zone_new_local ();
  g_autoptr (SwDesk) desk = NULL;
  SwStoreSetup setup = { 0 };
  SwStore *store;
  SwNow now;

  if (zone == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INPUT,
                   _("“%s” is not the name of a time zone; write it like Europe/Lisbon."), founding->zone);
      return NULL;
    }
  now = sw_clock_now (clock, zone);
  setup.person = founding->first_name;
  setup.zone = g_time_zone_get_identifier (zone);
  setup.practice_only = founding->practice_only;
  setup.seed = founding->seed;
  setup.at_us = now.utc_us;
  setup.offset_minutes = now.offset_minutes;
  store = sw_store_create (directory, &setup, error);
  desk = store ? desk_new (store, clock, error) : NULL;
  if (desk == NULL || (founding->practice != NULL && !name_practice (desk, founding->practice, error)))
    return NULL;
  return g_steal_pointer (&desk);
}

void
sw_desk_free (SwDesk *desk)
{
  if (desk == NULL)
    return;
  sw_store_close (desk->store);
  sw_clock_unref (desk->clock);
  sw_practice_free (desk->practice);
  g_clear_pointer (&desk->books, sw_books_unref);
  g_clear_pointer (&desk->zone, g_time_zone_unref);
  g_free (desk);
}

/* --- performing --- */

static void
operation_init (SwOperation *op, SwDesk *desk, const SwRequest *request)
{
  *op = (SwOperation){ .request = request, .act = request->act, .now = sw_clock_now (desk->clock, desk->zone) };
  op->facts = g_ptr_array_new_with_free_func (sw_fact_free);
  op->reply = sw_reply_new ();
  op->c = (SwCase){ NULL, desk->practice, desk->books, request->course, op->now.local, desk->zone };
}

static void
operation_clear (SwOperation *op)
{
  sw_dossier_free (op->dossier);
  g_ptr_array_unref (op->facts);
  sw_reply_free (op->reply);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwOperation, operation_clear)

/* Rows that only an operation of their own writes: handed over as they are, they would pass the rules by. Taking one
 * back is a plain act, and so is amending an injection. */
static gboolean
is_guarded (const SwFact *fact)
{
  static const SwFactKind made[] = {
    SW_FACT_DOCUMENT,       SW_FACT_ADOPTION,   SW_FACT_COURSE, SW_FACT_COURSE_DETAILS, SW_FACT_PLAN,
    SW_FACT_DOSE,           SW_FACT_DOSE_PLAN,  SW_FACT_DOSE_EVENT, SW_FACT_RELEASE,    SW_FACT_RELEASE_TUMOUR,
    SW_FACT_SCORE,          SW_FACT_OVERALL,    SW_FACT_COURSE_END,
  };

  if (fact->kind == SW_FACT_INJECTION || fact->kind == SW_FACT_INJECTION_TUMOUR || fact->kind == SW_FACT_VIAL)
    return fact->replaces == 0;
  for (guint i = 0; i < G_N_ELEMENTS (made); i++)
    if (fact->kind == made[i])
      return !fact->withdrawn;
  return FALSE;
}

static gboolean
copy_facts (SwOperation *op, GError **error)
{
  const GPtrArray *facts = op->request->facts;

  for (guint i = 0; i < facts->len; i++)
    if (is_guarded (facts->pdata[i]))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_REFUSED,
                     _("A row of “%s” is written by its own act only, once the rules were asked."),
                     sw_fact_type (((const SwFact *) facts->pdata[i])->kind)->table);
        return FALSE;
      }
    else
      sw_operation_add (op, sw_fact_copy (facts->pdata[i]));
  return TRUE;
}

/* Rows of the patient know whose they are, and a subject that was taken back is taken up again where it ended. */
static void
complete_facts (SwOperation *op)
{
  for (guint i = 0; i < op->facts->len; i++)
    {
      SwFact *fact = op->facts->pdata[i];
      const SwFact *tip;

      if (fact->patient == 0 && sw_fact_type (fact->kind)->scope == SW_SCOPE_PATIENT && fact->kind != SW_FACT_PATIENT)
        fact->patient = op->request->patient;
      if (fact->replaces != 0 || op->dossier == NULL)
        continue;
      tip = sw_facts_tip_like (&op->dossier->facts, fact);
      if (tip != NULL && tip->withdrawn)
        fact->replaces = tip->id;
    }
}

static gboolean
append (SwDesk *desk, SwOperation *op, GError **error)
{
  SwActHead head
      = { op->act, op->request->person, op->request->patient, op->now.utc_us, op->now.offset_minutes, desk->batch };

  if (!sw_store_append (desk->store, &head, op->facts, &op->reply->act, error))
    return FALSE;
  op->reply->patient = op->request->patient;
  for (guint i = 0; i < op->facts->len; i++)
    {
      const SwFact *fact = op->facts->pdata[i];
      SwRowRef row = { fact->kind, fact->id };

      g_array_append_val (op->reply->rows, row);
      if (fact->patient != 0)
        op->reply->patient = fact->patient;
      if (sw_fact_type (fact->kind)->scope == SW_SCOPE_PRACTICE)
        desk->stale = TRUE;
    }
  return TRUE;
}

static gboolean
touches_course (const SwOperation *op)
{
  if (op->dossier == NULL)
    return FALSE;
  return op->request->kind == SW_REQUEST_OPEN_COURSE || sw_dossier_last_course (op->dossier) != NULL;
}

static gboolean
put_derived (SwDesk *desk, gint64 patient, GError **error)
{
  g_autoptr (SwDossier) dossier = sw_store_load_dossier (desk->store, patient, error);
  g_autoptr (GArray) summaries = dossier ? sw_summarise (dossier, desk->practice, desk->books) : NULL;
  g_autoptr (GArray) treated = dossier ? sw_count_treated (dossier, desk->practice, desk->books) : NULL;

  if (summaries == NULL || !sw_store_put_treated (desk->store, patient, treated, error))
    return FALSE;
  for (guint i = 0; i < summaries->len; i++)
    if (!sw_store_put_summary (desk->store, &g_array_index (summaries, SwCourseSummary, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
operate (SwDesk *desk, SwOperation *op, GError **error)
{
  SwOperate guarded = operations[op->request->kind];

  if (op->request->patient != 0)
    {
      op->dossier = sw_store_load_dossier (desk->store, op->request->patient, error);
      if (op->dossier == NULL)
        return FALSE;
      op->c.dossier = op->dossier;
    }
  if (!(guarded ? guarded : copy_facts) (op, error))
    return FALSE;
  if (op->refused)
    return TRUE;
  complete_facts (op);
  if (op->dossier != NULL)
    sw_freeze_apply (op);
  if (!append (desk, op, error))
    return FALSE;
  return !touches_course (op) || put_derived (desk, op->request->patient, error);
}

SwReply *
sw_desk_perform (SwDesk *desk, const SwRequest *request, GError **error)
{
  g_auto (SwOperation) op = { 0 };
  gboolean done;

  if (!desk->batched && !sw_store_begin (desk->store, error))
    return NULL;
  done = refresh_practice (desk, error);
  operation_init (&op, desk, request);
  done = done && operate (desk, &op, error);
  if (!desk->batched && (!done || op.refused))
    sw_store_rollback (desk->store);
  else if (!desk->batched)
    done = sw_store_commit (desk->store, error);
  if (!done)
    return NULL;
  op.reply->done = !op.refused;
  return g_steal_pointer (&op.reply);
}

/* --- batches --- */

gboolean
sw_desk_begin_batch (SwDesk *desk, GError **error)
{
  g_return_val_if_fail (!desk->batched, FALSE);

  if (!sw_store_begin (desk->store, error))
    return FALSE;
  desk->batch = sw_store_new_batch (desk->store, error);
  if (desk->batch == 0 || !refresh_practice (desk, error))
    {
      sw_store_rollback (desk->store);
      desk->batch = 0;
      return FALSE;
    }
  desk->batched = TRUE;
  return TRUE;
}

gboolean
sw_desk_end_batch (SwDesk *desk, gboolean keep, GError **error)
{
  gboolean kept = TRUE;

  g_return_val_if_fail (desk->batched, FALSE);

  if (keep)
    kept = sw_store_commit (desk->store, error);
  else
    sw_store_rollback (desk->store);
  desk->batched = FALSE;
  desk->batch = 0;
  if (!keep || !kept)
    desk->seen = 0; /* lines it counted on are gone; the practice is read again */
  return kept;
}

/* --- reading --- */

SwDossier *
sw_desk_load_dossier (SwDesk *desk, gint64 patient, GError **error)
{
  return sw_store_load_dossier (desk->store, patient, error);
}

const SwPractice *
sw_desk_practice (SwDesk *desk, GError **error)
{
  return refresh_practice (desk, error) ? desk->practice : NULL;
}

SwNow
sw_desk_now (SwDesk *desk)
{
  return sw_clock_now (desk->clock, desk->zone);
}

SwClock *
sw_desk_clock (SwDesk *desk)
{
  return desk->clock;
}

SwStore *
sw_desk_store (SwDesk *desk)
{
  return desk->store;
}

SwBooks *
sw_desk_books (SwDesk *desk)
{
  return desk->books;
}
