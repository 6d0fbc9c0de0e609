/* sw-next-step.c: what the protocol allows after the score, in words, each with its act
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-next-step-private.h"

#include "sw-course-words.h"
#include "sw-course.h"
#include "sw-finding-view.h"
#include "sw-form.h"
#include "sw-response.h"

#include <glib/gi18n-lib.h>

struct _SwNextStep
{
  GtkBox parent_instance;

  /* children */
  GtkWidget *rows;
  GtkWidget *acts;
  SwFindingView *answer;

  SwStepPage *page; /* borrowed: it holds this widget */
  GArray *again;    /* gint64, tumours that may be injected again */
  gint64 follower;  /* the course that follows this one; 0: none */
};

G_DEFINE_FINAL_TYPE (SwNextStep, sw_next_step, GTK_TYPE_BOX)

/* What the acts need to know of all tumours together. */
typedef struct
{
  SwDay from; /* the latest day named; SW_NO_DAY: none */
  gboolean look;
  gboolean stage;
} Open;

/* --- acts --- */

static void
opened_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply == NULL || !reply->done)
    return;
  gtk_widget_activate_action (owner, "patient.course", "x", sw_reply_id (reply, SW_FACT_COURSE));
  gtk_widget_activate_action (owner, "patient.step", "s", "work-up");
}

static void
show_not_adopted (SwNextStep *self, const SwDocument *document)
{
  g_autofree char *sentence
    = g_strdup_printf (_("%s is not adopted any more, so no course can be opened with it."), document->doc_id);

  sw_finding_view_set_sentence (self->answer, SW_STOP, sentence, _("A vet adopts it on the practice page."));
}

/* The same protocol as now adopted, the tumours that may be treated again. */
static void
again_cb (GtkButton *button, SwNextStep *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  SwCase c = sw_page_context_case (context);
  const SwCourseDetails *details = sw_case_details (&c);
  const SwDocument *used = sw_facts_by_id (&c.practice->facts, SW_FACT_DOCUMENT, details->document);
  const SwDocument *adopted = sw_practice_adopted (c.practice, SW_DOCUMENT_PROTOCOL, used->doc_id);
  SwRequest *request;

  if (adopted == NULL)
    {
      show_not_adopted (self, used);
      return;
    }
  request = sw_request_open_course (context->person, context->patient, adopted->fact.id,
                                    (const gint64 *) (gpointer) self->again->data, self->again->len, c.course, NULL);
  sw_perform (GTK_WIDGET (self), context->record, request, self->answer, opened_cb, NULL);
}

static void
follower_cb (GtkButton *button, SwNextStep *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.course", "x", self->follower);
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.step", "s", "work-up");
}

static void
look_cb (GtkButton *button, SwNextStep *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.show-row", "(ix)", SW_FACT_VISIT, (gint64) 0);
}

static void
stage_cb (GtkButton *button, SwNextStep *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.step", "s", "work-up");
}

static void
end_cb (GtkButton *button, SwNextStep *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "patient.show-row", "(ix)", SW_FACT_COURSE_END, (gint64) 0);
}

static void
add_act (SwNextStep *self, const char *words, GCallback callback)
{
  GtkWidget *button = sw_button_new (words);

  g_signal_connect (button, "clicked", callback, self);
  gtk_box_append (GTK_BOX (self->acts), button);
}

static void
add_again (SwNextStep *self, const Open *open)
{
  g_autofree char *date = sw_day_format (open->from);
  g_autofree char *words = open->from == SW_NO_DAY ? g_strdup (_("Treat _Again: Open a Course That Follows"))
                                                   : g_strdup_printf (_("Inject _Again from %s"), date);

  add_act (self, words, G_CALLBACK (again_cb));
}

static void
add_acts (SwNextStep *self, const SwCase *c, const Open *open)
{
  if (self->follower != 0)
    {
      g_autofree char *number = sw_course_number (c->dossier, self->follower);
      g_autofree char *words = g_strdup_printf (_("Show Course %s, Which Follows"), number);

      add_act (self, words, G_CALLBACK (follower_cb));
      return;
    }
  if (sw_case_end (c) != NULL)
    return;
  if (self->again->len > 0)
    add_again (self, open);
  if (open->look)
    add_act (self, _("Record the Next _Visit"), G_CALLBACK (look_cb));
  if (open->stage)
    {
      add_act (self, _("_Stage Again on Work-up"), G_CALLBACK (stage_cb));
      add_act (self, _("Re_fer: End This Course"), G_CALLBACK (end_cb));
    }
}

/* --- words --- */

static gboolean
is_referral (SwFindingCode code)
{
  return code == SW_FINDING_NEXT_STAGE || code == SW_FINDING_NEXT_REFER || code == SW_FINDING_NEXT_RECURRENCE;
}

static gboolean
is_injection (SwFindingCode code)
{
  return code == SW_FINDING_NEXT_SECOND || code == SW_FINDING_NEXT_THIRD;
}

static void
note_what_is_open (SwNextStep *self, gint64 tumour, const SwFinding *next, Open *open)
{
  const SwArg *when = sw_finding_arg (next, "when");

  open->stage = open->stage || is_referral (next->code);
  open->look = open->look || (!is_referral (next->code) && !is_injection (next->code));
  if (!is_injection (next->code) && next->code != SW_FINDING_NEXT_RECURRENCE)
    return;
  g_array_append_val (self->again, tumour);
  if (when != NULL && when->type == SW_ARG_DAY)
    open->from = MAX (open->from, (SwDay) when->num);
}

static void
add_row (SwNextStep *self, const SwCase *c, gint64 tumour, const SwFinding *next)
{
  g_autofree char *title = sw_words_tumour (c->dossier, tumour);
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_box_append (GTK_BOX (self->rows), label);
  gtk_box_append (GTK_BOX (self->rows), sw_finding_row_new (next));
}

/* "day 56, 2026-07-09; day 84, 2026-08-06; ..." */
static void
add_watch_dates (SwNextStep *self, const SwCase *c)
{
  g_autoptr (GArray) slots = sw_course_visits (c);
  g_autoptr (GString) dates = g_string_new (NULL);
  g_autofree char *words = NULL;

  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);
      g_autofree char *day = sw_words_day (c, slot->day);

      if (slot->standing == SW_VISIT_COMING || slot->standing == SW_VISIT_DUE || slot->standing == SW_VISIT_OVERDUE)
        g_string_append_printf (dates, "%s%s", dates->len > 0 ? "; " : "", day);
    }
  if (dates->len == 0)
    return;
  words = g_strdup_printf (_("Looks to come: %s."), dates->str);
  gtk_box_append (GTK_BOX (self->rows), sw_quiet_new (words));
}

static gint64
course_that_follows (const SwCase *c)
{
  const SwCourseDetails *details;

  for (guint i = 0; (details = sw_facts_next (&c->dossier->facts, SW_FACT_COURSE_DETAILS, &i)) != NULL;)
    if (details->follows == c->course)
      return details->course;
  return 0;
}

static void
clear (SwNextStep *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->rows)) != NULL)
    gtk_box_remove (GTK_BOX (self->rows), child);
  while ((child = gtk_widget_get_first_child (self->acts)) != NULL)
    gtk_box_remove (GTK_BOX (self->acts), child);
  sw_finding_view_clear (self->answer);
  g_array_set_size (self->again, 0);
}

/* The next step of a tumour's newest score; of the score that the day would have, when nothing so late was scored. */
static SwFinding *
next_of (const SwCase *c, gint64 tumour, SwDay day, gboolean *scored)
{
  const SwScore *score = sw_course_last_score (c->dossier, c->course, tumour);
  g_autoptr (SwResponse) response = NULL;

  *scored = score != NULL && score->day >= day;
  if (*scored)
    return sw_course_next_step (c, tumour);
  response = sw_response_of_tumour (c, tumour, day, NULL);
  return response != NULL ? g_steal_pointer (&response->next) : NULL;
}

void
sw_next_step_show (SwNextStep *self, SwStepPage *page, SwDay day)
{
  SwCase c = sw_page_context_case (sw_step_page_get_context (page));
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c.dossier, c.course);
  Open open = { SW_NO_DAY, FALSE, FALSE };
  gboolean all_scored = tumours->len > 0;

  clear (self);
  self->page = page;
  self->follower = course_that_follows (&c);
  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      gboolean scored;
      g_autoptr (SwFinding) next = next_of (&c, tumour, day, &scored);

      all_scored = all_scored && scored;
      if (next == NULL)
        continue;
      add_row (self, &c, tumour, next);
      note_what_is_open (self, tumour, next, &open);
    }
  if (all_scored)
    {
      add_watch_dates (self, &c);
      add_acts (self, &c, &open);
    }
  else
    gtk_box_append (GTK_BOX (self->rows), sw_quiet_new (_("The acts come here once the score is recorded.")));
}

static void
sw_next_step_finalize (GObject *object)
{
  g_array_unref (SW_NEXT_STEP (object)->again);
  G_OBJECT_CLASS (sw_next_step_parent_class)->finalize (object);
}

static void
sw_next_step_class_init (SwNextStepClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_next_step_finalize;
}

static void
sw_next_step_init (SwNextStep *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->again = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (self), self->rows);
  gtk_box_append (GTK_BOX (self), self->acts);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
}

GtkWidget *
sw_next_step_new (void)
{
  return g_object_new (SW_TYPE_NEXT_STEP, NULL);
}
