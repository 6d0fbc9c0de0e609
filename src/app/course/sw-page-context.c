/* sw-page-context.c: what all pages about one dog share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-page-context.h"

SwPageContext *
sw_page_context_new (SwRecord *record, SwDossier *dossier, gint64 course, gint64 person)
{
  SwPageContext *self = g_atomic_rc_box_new0 (SwPageContext);
  const SwCourse *newest = sw_dossier_last_course (dossier);

  self->record = g_object_ref (record);
  self->dossier = dossier;
  self->patient = dossier->patient;
  self->course = course != 0 || newest == NULL ? course : newest->fact.id;
  self->person = person;

  return self;
}

SwPageContext *
sw_page_context_ref (SwPageContext *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear (SwPageContext *self)
{
  g_clear_object (&self->record);
  g_clear_pointer (&self->dossier, sw_dossier_free);
}

void
sw_page_context_unref (SwPageContext *self)
{
  g_atomic_rc_box_release_full (self, (GDestroyNotify) clear);
}

const SwPractice *
sw_page_context_practice (const SwPageContext *self)
{
  return sw_record_get_practice (self->record);
}

const SwBooks *
sw_page_context_books (const SwPageContext *self)
{
  return sw_record_get_books (self->record);
}

SwMoment
sw_page_context_now (const SwPageContext *self)
{
  return sw_record_get_now (self->record).local;
}

gint64
sw_page_context_roles (const SwPageContext *self)
{
  return sw_practice_roles (sw_page_context_practice (self), self->person);
}

SwCase
sw_page_context_case (const SwPageContext *self)
{
  SwCase c;

  sw_record_get_case (self->record, self->dossier, self->course, &c);
  return c;
}
