/* sw-outcomes-view.c: what this practice achieved
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcomes-view.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-outcome-filters.h"
#include "sw-outcome-save.h"
#include "sw-outcome-section-view.h"
#include "sw-perform.h"
#include "sw-treated-list.h"

#include <glib/gi18n-lib.h>

struct _SwOutcomesView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *box;
  GtkBox *filters_place;
  GtkStack *stack;
  GtkBox *sections;
  GtkLabel *heads;
  GtkLabel *cautions;
  GtkProgressBar *progress;
  GtkWidget *cancel;
  GtkWidget *again;
  GtkWidget *report;
  GtkWidget *tables;

  SwOutcomeFilters *filters;
  SwTreatedList *list;

  /* owned */
  SwRecord *record;
  SwOutcomes *outcomes;      /* NULL while computing */
  GCancellable *cancellable; /* of what is being computed, until all of it is shown */
  GQueue arrived;            /* SwOutcomeSection computed and not shown yet */
  SwOutcomes *whole;         /* the same for the end of it */
  SwOutcomeSection *saving;  /* keeps the chart of an open dialog */
  const SwChart *chart;
  gboolean picture;

  gboolean stale; /* something was written since */
  guint tick;     /* shows what arrived; 0: nothing to show */
};

G_DEFINE_FINAL_TYPE (SwOutcomesView, sw_outcomes_view, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- what is shown --- */

static void
show_state (SwOutcomesView *self)
{
  gboolean computing = self->cancellable != NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->progress), computing);
  gtk_widget_set_visible (self->cancel, computing);
  gtk_widget_set_visible (self->again, !computing && (self->stale || self->outcomes == NULL));
  gtk_widget_set_sensitive (self->report, self->outcomes != NULL);
  gtk_widget_set_sensitive (self->tables, self->outcomes != NULL);
}

static void
show_lines (GtkLabel *label, const GPtrArray *lines, const char *separator)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? separator : "", (const char *) lines->pdata[i]);
  gtk_label_set_text (label, text->str);
}

static void
forget_sections (SwOutcomesView *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->sections))) != NULL)
    gtk_box_remove (self->sections, child);
}

/* --- behind a figure --- */

static void
behind_cb (SwOutcomeSectionView *view, GArray *places, const char *title, SwOutcomesView *self)
{
  if (self->outcomes == NULL)
    return;
  gtk_stack_set_visible_child_name (self->stack, "behind");
  sw_treated_list_show (self->list, self->outcomes, places, title);
}

static void
back_cb (SwTreatedList *list, SwOutcomesView *self)
{
  gtk_stack_set_visible_child_name (self->stack, "figures");
}

static void
chosen_cb (SwTreatedList *list, gint64 patient, SwOutcomesView *self)
{
  g_signal_emit (self, signals[CHOSEN], 0, patient);
}

/* --- saving --- */

static gboolean
told (SwOutcomesView *self, gboolean done, const GError *error)
{
  if (!done)
    sw_trouble_error (GTK_WIDGET (self), error);
  return done;
}

gboolean
sw_outcomes_view_save_report (SwOutcomesView *self, GFile *file)
{
  g_autoptr (GError) error = NULL;

  return told (self, sw_outcome_save_report (self->outcomes, file, &error), error);
}

gboolean
sw_outcomes_view_save_tables (SwOutcomesView *self, GFile *file)
{
  g_autoptr (GError) error = NULL;

  return told (self, sw_outcome_save_tables (self->outcomes, file, &error), error);
}

static void
report_chosen_cb (GFile *file, gpointer data)
{
  SwOutcomesView *self = data;

  if (file != NULL && self->outcomes != NULL)
    sw_outcomes_view_save_report (self, file);
}

static void
tables_chosen_cb (GFile *file, gpointer data)
{
  SwOutcomesView *self = data;

  if (file != NULL && self->outcomes != NULL)
    sw_outcomes_view_save_tables (self, file);
}

static void
report_cb (GtkButton *button, SwOutcomesView *self)
{
  sw_dialog_save (GTK_WIDGET (self), _("Save the report"), "outcomes.pdf", report_chosen_cb, self);
}

static void
tables_cb (GtkButton *button, SwOutcomesView *self)
{
  sw_dialog_save (GTK_WIDGET (self), _("Save the tables: figures, curves and tumours beside each other"),
                  "outcomes.csv", tables_chosen_cb, self);
}

static void
chart_chosen_cb (GFile *file, gpointer data)
{
  SwOutcomesView *self = data;
  g_autoptr (SwOutcomeSection) section = g_steal_pointer (&self->saving);
  g_autoptr (GError) error = NULL;

  if (file != NULL && section != NULL)
    told (self, sw_outcome_save_chart (self->chart, self->picture, file, &error), error);
}

static void
save_chart_cb (SwOutcomeSectionView *view, gpointer chart, gboolean picture, SwOutcomesView *self)
{
  g_autofree char *name = g_strdup_printf ("%s.%s", ((const SwChart *) chart)->code, picture ? "png" : "csv");

  g_clear_pointer (&self->saving, sw_outcome_section_unref);
  self->saving = sw_outcome_section_ref (g_object_get_data (G_OBJECT (view), "section"));
  self->chart = chart;
  self->picture = picture;
  sw_dialog_save (GTK_WIDGET (self), picture ? _("Save the chart as a picture") : _("Save the points as a table"),
                  name, chart_chosen_cb, self);
}

/* --- computing --- */

static void
add_section (SwOutcomesView *self, SwOutcomeSection *section)
{
  GtkWidget *view = sw_outcome_section_view_new (section);

  g_object_set_data_full (G_OBJECT (view), "section", sw_outcome_section_ref (section),
                          (GDestroyNotify) sw_outcome_section_unref);
  g_signal_connect (view, "behind", G_CALLBACK (behind_cb), self);
  g_signal_connect (view, "save", G_CALLBACK (save_chart_cb), self);
  gtk_box_append (self->sections, view);
}

static void
take_outcomes (SwOutcomesView *self, SwOutcomes *outcomes)
{
  self->outcomes = outcomes;
  show_lines (self->heads, outcomes->heads, " · ");
  show_lines (self->cautions, outcomes->cautions, " ");
  sw_outcome_filters_set_rows (self->filters, self->record, outcomes->rows);
}

static void
forget_arrived (SwOutcomesView *self)
{
  g_queue_clear_full (&self->arrived, (GDestroyNotify) sw_outcome_section_unref);
  g_clear_pointer (&self->whole, sw_outcomes_unref);
}

/* One section a frame: building several at once would hold up the main loop. */
static gboolean
show_next_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  SwOutcomesView *self = SW_OUTCOMES_VIEW (widget);
  g_autoptr (SwOutcomeSection) section = g_queue_pop_head (&self->arrived);

  if (section != NULL)
    add_section (self, section);
  if (self->whole != NULL && g_queue_is_empty (&self->arrived))
    {
      g_clear_object (&self->cancellable);
      take_outcomes (self, g_steal_pointer (&self->whole));
      show_state (self);
    }
  if (self->cancellable != NULL)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
section_came (SwOutcomeSection *section, guint done, guint total, gpointer data)
{
  SwOutcomesView *self = data;

  g_queue_push_tail (&self->arrived, sw_outcome_section_ref (section));
  gtk_progress_bar_set_fraction (self->progress, (double) done / total);
}

static void
outcomes_came (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwOutcomesView) self = data;
  g_autoptr (GError) error = NULL;
  SwOutcomes *outcomes = sw_record_outcomes_finish (SW_RECORD (source), result, &error);

  if (g_task_get_cancellable (G_TASK (result)) != self->cancellable)
    {
      g_clear_pointer (&outcomes, sw_outcomes_unref); /* another one has begun, or the page has gone */
      return;
    }
  self->whole = outcomes;
  if (outcomes != NULL)
    return; /* the next frame shows the rest */
  g_clear_object (&self->cancellable);
  sw_trouble_error (GTK_WIDGET (self), error);
  show_state (self);
}

static void
stop (SwOutcomesView *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  forget_arrived (self);
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
}

static void
compute (SwOutcomesView *self)
{
  g_autoptr (SwOutcomeQuery) query = NULL;

  if (self->record == NULL)
    return;
  stop (self);
  g_clear_pointer (&self->outcomes, sw_outcomes_unref);
  forget_sections (self);
  gtk_stack_set_visible_child_name (self->stack, "figures");
  gtk_progress_bar_set_fraction (self->progress, 0);
  self->stale = FALSE;
  self->cancellable = g_cancellable_new ();
  self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), show_next_cb, NULL, NULL);
  show_state (self);
  query = sw_outcome_filters_get_query (self->filters, sw_record_get_now (self->record).local.day);
  sw_record_outcomes_async (self->record, query, section_came, self->cancellable, outcomes_came, g_object_ref (self));
}

static void
cancel_cb (GtkButton *button, SwOutcomesView *self)
{
  stop (self);
  gtk_label_set_text (self->heads, _("Stopped before all figures were computed."));
  show_state (self);
}

static void
again_cb (GtkButton *button, SwOutcomesView *self)
{
  compute (self);
}

static void
filters_cb (SwOutcomeFilters *filters, SwOutcomesView *self)
{
  compute (self);
}

/* Whoever reads is not disturbed: what was written meanwhile is offered, and taken in when the page is shown anew. */
static void
mark_stale (SwOutcomesView *self)
{
  self->stale = TRUE;
  show_state (self);
}

static void
changed_cb (SwRecord *record, gint64 patient, SwOutcomesView *self)
{
  mark_stale (self);
}

static void
something_changed_cb (SwRecord *record, SwOutcomesView *self)
{
  mark_stale (self);
}

static void
sw_outcomes_view_map (GtkWidget *widget)
{
  SwOutcomesView *self = SW_OUTCOMES_VIEW (widget);

  GTK_WIDGET_CLASS (sw_outcomes_view_parent_class)->map (widget);
  if (self->cancellable == NULL && (self->outcomes == NULL || self->stale))
    compute (self);
}

/* --- the widget --- */

static void
sw_outcomes_view_dispose (GObject *object)
{
  SwOutcomesView *self = SW_OUTCOMES_VIEW (object);

  stop (self);
  g_clear_object (&self->record);
  g_clear_pointer (&self->outcomes, sw_outcomes_unref);
  g_clear_pointer (&self->saving, sw_outcome_section_unref);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_outcomes_view_parent_class)->dispose (object);
}

static void
sw_outcomes_view_class_init (SwOutcomesViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_outcomes_view_dispose;
  widget_class->map = sw_outcomes_view_map;
  signals[CHOSEN] = g_signal_new ("chosen", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_INT64);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "outcomes");
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-outcomes-view.ui");
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, box);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, filters_place);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, stack);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, sections);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, heads);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, cautions);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, progress);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, cancel);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, again);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, report);
  gtk_widget_class_bind_template_child (widget_class, SwOutcomesView, tables);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
  gtk_widget_class_bind_template_callback (widget_class, again_cb);
  gtk_widget_class_bind_template_callback (widget_class, report_cb);
  gtk_widget_class_bind_template_callback (widget_class, tables_cb);
}

static void
sw_outcomes_view_init (SwOutcomesView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_queue_init (&self->arrived);
  self->filters = SW_OUTCOME_FILTERS (sw_outcome_filters_new ());
  self->list = SW_TREATED_LIST (sw_treated_list_new ());
  g_signal_connect (self->filters, "changed", G_CALLBACK (filters_cb), self);
  g_signal_connect (self->list, "back", G_CALLBACK (back_cb), self);
  g_signal_connect (self->list, "chosen", G_CALLBACK (chosen_cb), self);
  gtk_box_append (self->filters_place, GTK_WIDGET (self->filters));
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->list), "behind");
  show_state (self);
}

void
sw_outcomes_view_set_record (SwOutcomesView *self, SwRecord *record)
{
  g_set_object (&self->record, record);
  g_signal_connect_object (record, "changed", G_CALLBACK (changed_cb), self, 0);
  g_signal_connect_object (record, "practice-changed", G_CALLBACK (something_changed_cb), self, 0);
  g_signal_connect_object (record, "day-changed", G_CALLBACK (something_changed_cb), self, 0);
}

SwOutcomes *
sw_outcomes_view_get_outcomes (SwOutcomesView *self)
{
  return self->outcomes;
}
