/* sw-page-context.h: what all pages about one dog share: the record, the dog's dossier as last loaded, who is at the
 * desk
 *
 * A context never changes: when something was written, or another person sits down, the patient page makes a new one
 * and hands it to its step pages. Whoever keeps a fact pointer keeps the context too.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-record.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  SwRecord *record;   /* owned */
  SwDossier *dossier; /* owned */
  gint64 patient;
  gint64 course;      /* the one chosen; 0: the dog has none */
  gint64 person;      /* at the desk */
} SwPageContext;

/* Takes the dossier. course 0 stands for the newest one. */
SwPageContext *sw_page_context_new (SwRecord *record, SwDossier *dossier, gint64 course, gint64 person);
SwPageContext *sw_page_context_ref (SwPageContext *self);
void sw_page_context_unref (SwPageContext *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPageContext, sw_page_context_unref)

/* The record's own, asked for anew: borrowed until the next return to the main loop. */
const SwPractice *sw_page_context_practice (const SwPageContext *self);
const SwBooks *sw_page_context_books (const SwPageContext *self);
/* The record's local time at this moment. */
SwMoment sw_page_context_now (const SwPageContext *self);
gint64 sw_page_context_roles (const SwPageContext *self);
/* What rules are asked about; valid until the next return to the main loop. */
SwCase sw_page_context_case (const SwPageContext *self);

G_END_DECLS
