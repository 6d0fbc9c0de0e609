/* sw-score-list.c: the scores of a course so far
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-score-list-private.h"

#include "sw-course-words.h"
#include "sw-form.h"
#include "sw-response.h"

#include <glib/gi18n-lib.h>

#define FACT_ID "sw-fact-id"
#define FACT_KIND "sw-fact-kind"

static char *
longest (gint64 sum, gint64 count)
{
  if (sum == SW_UNKNOWN)
    return g_strdup (_("not evaluable"));
  return sw_family_format (SW_FAMILY_LONGEST, sw_ratio (sum, count));
}

/* "Tumour A, left hock: PR, 21.20 mm at baseline, now 12.10 mm, counts as day 28" */
static char *
words_of_score (const SwCase *c, const SwScore *score)
{
  g_autofree char *tumour = sw_words_tumour (c->dossier, score->tumour);
  g_autofree char *baseline = longest (score->baseline_sum, score->baseline_count);
  g_autofree char *now = longest (score->now_sum, score->now_count);
  GString *words = g_string_new (NULL);

  g_string_printf (words, _("%s: %s, baseline %s, then %s"), tumour, sw_category_code ((SwCategory) score->category),
                   baseline, now);
  if (score->counts_as_day_28)
    g_string_append (words, _(", counts as day 28"));
  if (score->wound_open)
    g_string_append (words, _(", wound open"));
  return g_string_free (words, FALSE);
}

static char *
words_of_overall (const SwOverall *overall)
{
  return g_strdup_printf (_("The dog: %s, other tumours: %s, %s"), sw_category_code ((SwCategory) overall->category),
                          sw_non_targets_name ((SwNonTargets) overall->non_targets),
                          overall->new_tumour ? _("a new tumour") : _("no new tumour"));
}

static GtkWidget *
label_new (const char *text, int width_chars, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), width_chars);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);

  return label;
}

static void
add_row (GtkListBox *list, const SwPageContext *context, const SwFact *fact, SwDay day, const char *words,
         const char *note)
{
  SwCase c = sw_page_context_case (context);
  g_autofree char *when = sw_words_day (&c, day), *who = sw_words_recorded (context, fact);
  g_autofree char *state = sw_fact_is_current (fact) ? g_strdup (who) : g_strdup_printf (_("%s, amended since"), who);
  g_autofree char *name = g_strdup_printf ("%s, %s, %s", when, words, state);
  g_autofree char *whole = note != NULL ? g_strdup_printf ("%s\n%s", words, note) : g_strdup (words);
  GtkWidget *row = gtk_list_box_row_new (), *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = label_new (whole, -1, sw_fact_is_current (fact) ? NULL : "quiet");

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (line), label_new (when, 20, "figure"));
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), label_new (state, -1, "quiet"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), line);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (row), FACT_KIND, GINT_TO_POINTER (fact->kind));
  g_object_set_data_full (G_OBJECT (row), FACT_ID, g_memdup2 (&fact->id, sizeof fact->id), g_free);
  gtk_list_box_prepend (list, row);
}

guint
sw_score_list_fill (GtkListBox *list, const SwPageContext *context)
{
  SwCase c = sw_page_context_case (context);
  const GPtrArray *scores = c.dossier->facts.rows[SW_FACT_SCORE], *overalls = c.dossier->facts.rows[SW_FACT_OVERALL];
  GtkWidget *row;
  guint n = 0;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL)
    gtk_list_box_remove (list, row);
  for (guint i = 0; i < overalls->len; i++)
    {
      const SwOverall *overall = overalls->pdata[i];
      g_autofree char *words = words_of_overall (overall);

      if (overall->course == c.course && ++n)
        add_row (list, context, &overall->fact, overall->day, words, NULL);
    }
  for (guint i = 0; i < scores->len; i++)
    {
      const SwScore *score = scores->pdata[i];
      g_autofree char *words = words_of_score (&c, score);

      if (score->course == c.course && ++n)
        add_row (list, context, &score->fact, score->day, words, score->note);
    }
  return n;
}

GtkWidget *
sw_score_list_find (GtkListBox *list, SwFactKind kind, gint64 id)
{
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (list));

  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    if (GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), FACT_KIND)) == (int) kind
        && *(gint64 *) g_object_get_data (G_OBJECT (row), FACT_ID) == id)
      break;
  return row;
}
