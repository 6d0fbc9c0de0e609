/* sw-visit-days.c: the visit days of a course, and the picture expected
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-visit-days-private.h"

#include "sw-course.h"
#include "sw-expected.h"
#include "sw-form.h"

#include <glib/gi18n-lib.h>

/* Shape and word: the colour, where a theme gives one, only repeats them. */
static const struct
{
  const char *shape;
  const char *word;
  const char *css;
} standings[] = {
  [SW_VISIT_COMING] = { "○", N_("coming"), "quiet" },
  [SW_VISIT_DUE] = { "◉", N_("due"), "due" },
  [SW_VISIT_OVERDUE] = { "◆", N_("overdue"), "overdue" },
  [SW_VISIT_DONE] = { "●", N_("done"), "done" },
  [SW_VISIT_PASSED] = { "–", N_("not held"), "quiet" },
};

/* "day 28"; the first contact has its hour. */
static char *
day_words (const SwVisitSlot *slot)
{
  g_autofree char *time = sw_time_format (slot->minute);

  if (slot->number == 0)
    return g_strdup_printf (_("contact %s"), time);
  return g_strdup_printf (_("day %d"), (int) slot->number);
}

static GtkWidget *
label_new (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css);
  return label;
}

static GtkWidget *
card_new (const SwVisitSlot *slot)
{
  g_autofree char *day = day_words (slot), *date = sw_day_format (slot->day);
  g_autofree char *state
    = g_strdup_printf ("%s %s", standings[slot->standing].shape, _(standings[slot->standing].word));
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_add_css_class (card, "visit-day");
  gtk_widget_add_css_class (card, standings[slot->standing].css);
  gtk_box_append (GTK_BOX (card), label_new (day, "figure"));
  gtk_box_append (GTK_BOX (card), label_new (date, "quiet"));
  gtk_box_append (GTK_BOX (card), label_new (state, "visit-state"));

  return card;
}

static void
clear (GtkWidget *container, void (*remove_child) (GtkWidget *container, GtkWidget *child))
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (container)) != NULL)
    remove_child (container, child);
}

static void
remove_from_flow (GtkWidget *flow, GtkWidget *child)
{
  gtk_flow_box_remove (GTK_FLOW_BOX (flow), child);
}

static void
remove_from_box (GtkWidget *box, GtkWidget *child)
{
  gtk_box_remove (GTK_BOX (box), child);
}

void
sw_visit_days_fill (GtkFlowBox *flow, const SwPageContext *context)
{
  SwCase c = sw_page_context_case (context);
  g_autoptr (GArray) slots = sw_course_visits (&c);

  clear (GTK_WIDGET (flow), remove_from_flow);
  for (guint i = 0; i < slots->len; i++)
    {
      GtkWidget *child = gtk_flow_box_child_new ();

      gtk_widget_set_focusable (child, FALSE);
      gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), card_new (&g_array_index (slots, SwVisitSlot, i)));
      gtk_flow_box_append (flow, child);
    }
}

static void
add_picture (GtkBox *box, const SwPicture *picture)
{
  g_autofree char *words = g_strdup_printf (_("%s: %s"), picture->when, picture->words);
  g_autofree char *basis = picture->source != NULL ? g_strdup_printf ("%s [%s]", picture->source, picture->mark)
                                                   : g_strdup_printf ("[%s]", picture->mark);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (words), *source = sw_quiet_new (basis);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (source), 1);
  gtk_widget_set_hexpand (source, TRUE);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), source);
  gtk_box_append (box, line);
}

void
sw_expected_fill (GtkBox *box, const SwPageContext *context, SwDay day)
{
  SwDay zero = sw_course_day_zero (context->dossier, context->course);
  g_autoptr (GArray) pictures = sw_expected_on (day - zero);

  clear (GTK_WIDGET (box), remove_from_box);
  for (guint i = 0; i < pictures->len; i++)
    add_picture (box, &g_array_index (pictures, SwPicture, i));
  if (pictures->len == 0)
    gtk_box_append (box, sw_quiet_new (_("That day lies before the injection.")));
}
