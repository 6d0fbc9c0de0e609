/* sw-step-page.h: the base of every page of a course: Work-up, Lead-in, Treatment day, Rechecks, Response, Log
 *
 *   patient page --context--> step page --request--> sw_perform --> record
 *        ^                                                            |
 *        +------------------- changed (patient): loads again ---------+
 *
 * A page is a widget with this parent in its template; its children are laid out in the whole of it. It keeps no facts:
 * update() is called with the present context whenever something it shows may have changed, and only while the page can
 * be seen (a hidden page catches up when it is shown). What is typed belongs to the page: update() never writes into a
 * field that has the focus or text of its own (sw_quantity_entry_offer_value), except when `changes` says that it is
 * another dog, course or person: then it starts anew. The patient page asks has_unsaved() before it changes any of
 * these, so nothing typed is lost unasked.
 *
 * A page joins the window by one line in the table of sw-patient-page.c and one file here, in ui/ and in
 * po/POTFILES.in.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"
#include "sw-perform.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  SW_CHANGED_PATIENT = 1 << 0,  /* another dog, or the first */
  SW_CHANGED_COURSE = 1 << 1,   /* another course was chosen, or one was opened */
  SW_CHANGED_PERSON = 1 << 2,   /* somebody else is at the desk, or with other roles */
  SW_CHANGED_FACTS = 1 << 3,    /* something about this dog was written, here or elsewhere */
  SW_CHANGED_PRACTICE = 1 << 4, /* people, settings or documents */
  SW_CHANGED_TIME = 1 << 5,     /* a minute has passed, or midnight */
} SwPageChanges;

/* The fields must start anew. */
#define SW_CHANGED_SUBJECT (SW_CHANGED_PATIENT | SW_CHANGED_COURSE | SW_CHANGED_PERSON)

#define SW_TYPE_STEP_PAGE (sw_step_page_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwStepPage, sw_step_page, SW, STEP_PAGE, GtkWidget)

struct _SwStepPageClass
{
  GtkWidgetClass parent_class;

  /* Show the context. Needed. */
  void (*update) (SwStepPage *self, const SwPageContext *context, SwPageChanges changes);
  /* Whether something typed is not saved; default: no. Leaving then asks. */
  gboolean (*has_unsaved) (SwStepPage *self);
  /* Where a digit typed outside all entries belongs; default: nowhere. */
  GtkWidget *(*first_empty_cell) (SwStepPage *self);
  /* Bring what stands for this row to view and focus it (a mark of the course line was activated); FALSE: not on this
   * page. */
  gboolean (*show_row) (SwStepPage *self, SwFactKind kind, gint64 id);
};

/* --- for pages --- */

/* Never NULL inside update() and handlers of a visible page. Borrowed until the next return to the main loop. */
const SwPageContext *sw_step_page_get_context (SwStepPage *self);

/* A plain act about this dog, by the person at the desk: sw_request_new with both filled in. (transfer full) */
SwRequest *sw_step_page_request (SwStepPage *self, SwActKind act);

/* Takes the request. See sw_perform: shows findings and errors beside, calls replied (page, reply, data) if the page is
 * still there. The dossier is loaded again by itself when the reply is done; update() follows. */
void sw_step_page_perform (SwStepPage *self, SwRequest *request, SwFindingView *beside, SwReplied replied,
                           gpointer data);

/* Update once more, as if `changes` had come: for a page that must show what it asked for asynchronously. */
void sw_step_page_invalidate (SwStepPage *self, SwPageChanges changes);

/* --- for the patient page --- */

void sw_step_page_set_context (SwStepPage *self, SwPageContext *context, SwPageChanges changes);
gboolean sw_step_page_has_unsaved (SwStepPage *self);
GtkWidget *sw_step_page_first_empty_cell (SwStepPage *self);
gboolean sw_step_page_show_row (SwStepPage *self, SwFactKind kind, gint64 id);

G_END_DECLS
