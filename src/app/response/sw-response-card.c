/* sw-response-card.c: how one tumour answered on one day
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-response-card-private.h"

#include "sw-course-words.h"
#include "sw-finding-view.h"
#include "sw-form.h"
#include "sw-response.h"
#include "sw-why-view.h"

#include <glib/gi18n-lib.h>

enum { COLUMN_NAME, COLUMN_BASELINE, COLUMN_SMALLEST, COLUMN_NOW, COLUMN_CATEGORY };

static GtkWidget *
put (GtkWidget *table, int column, int row, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == COLUMN_NAME || column == COLUMN_CATEGORY ? 0 : 1);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (table), label, column, row, 1, 1);

  return label;
}

static void
put_size (GtkWidget *table, int column, int row, SwFamily family, SwRatio size)
{
  g_autofree char *text = sw_family_format (family, size);

  put (table, column, row, text, "figure");
}

static void
put_family (GtkWidget *table, int row, SwFamily family, const SwFamilyScore *score)
{
  g_autofree char *verdict = NULL;

  put (table, COLUMN_NAME, row, sw_family_name (family), NULL);
  if (!score->known)
    {
      put (table, COLUMN_CATEGORY, row, _("no figure"), "quiet");
      return;
    }
  put_size (table, COLUMN_BASELINE, row, family, score->baseline);
  put_size (table, COLUMN_SMALLEST, row, family, score->smallest);
  if (score->has_now)
    put_size (table, COLUMN_NOW, row, family, score->now);
  else
    put (table, COLUMN_NOW, row, _("not evaluable"), "quiet");
  verdict = family == SW_FAMILY_LONGEST ? g_strdup_printf (_("%s, decides"), sw_category_code (score->category))
                                        : g_strdup_printf (_("%s, beside it"), sw_category_code (score->category));
  put (table, COLUMN_CATEGORY, row, verdict, family == SW_FAMILY_LONGEST ? "heading" : "quiet");
}

static GtkWidget *
table_new (const SwResponse *response, SwDay baseline, SwDay newest)
{
  GtkWidget *table = gtk_grid_new ();
  g_autofree char *from = sw_day_format (baseline), *to = sw_day_format (newest);

  gtk_grid_set_column_spacing (GTK_GRID (table), 24);
  gtk_grid_set_row_spacing (GTK_GRID (table), 3);
  put (table, COLUMN_BASELINE, 0, _("baseline"), "quiet");
  put (table, COLUMN_SMALLEST, 0, _("smallest before"), "quiet");
  put (table, COLUMN_NOW, 0, _("newest"), "quiet");
  put (table, COLUMN_BASELINE, 1, from, "figure");
  put (table, COLUMN_NOW, 1, to, "figure");
  for (int family = 0; family < SW_N_FAMILIES; family++)
    put_family (table, family + 2, (SwFamily) family, &response->family[family]);

  return table;
}

static GtkWidget *
heading_new (const char *title, const SwResponse *response)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *category;
  g_autofree char *words = NULL;

  gtk_box_append (GTK_BOX (line), sw_heading_new (title));
  if (response == NULL)
    return line;
  words = g_strdup_printf ("%s (%s)", sw_category_name (response->category), sw_category_code (response->category));
  category = gtk_label_new (words);
  gtk_widget_add_css_class (category, "result");
  gtk_widget_set_hexpand (category, TRUE);
  gtk_label_set_xalign (GTK_LABEL (category), 0);
  gtk_box_append (GTK_BOX (line), category);
  if (response->wound_open)
    gtk_box_append (GTK_BOX (line), sw_quiet_new (_("wound open")));
  if (response->counts_as_day_28)
    gtk_box_append (GTK_BOX (line), sw_quiet_new (_("counts as day 28")));
  if (response->presumed)
    gtk_box_append (GTK_BOX (line), sw_quiet_new (_("presumed")));

  return line;
}

static GtkWidget *
why_new (const char *title, const SwResponse *response)
{
  GtkWidget *expander = gtk_expander_new (_("Why this category"));
  GtkWidget *why = sw_why_view_new ();
  g_autofree char *name = g_strdup_printf (_("Why this category: %s"), title);

  sw_why_view_set_lines (SW_WHY_VIEW (why), response->why);
  gtk_widget_set_margin_top (why, 6);
  gtk_widget_set_margin_start (why, 18);
  gtk_expander_set_child (GTK_EXPANDER (expander), why);
  gtk_expander_set_expanded (GTK_EXPANDER (expander), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);

  return expander;
}

GtkWidget *
sw_response_card_new (const SwPageContext *context, gint64 tumour, SwDay day)
{
  SwCase c = sw_page_context_case (context);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwResponse) response = sw_response_of_tumour (&c, tumour, day, &error);
  g_autoptr (GArray) sizes = sw_response_sizes (&c, tumour, day);
  g_autofree char *title = sw_words_tumour (c.dossier, tumour);
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *findings = sw_finding_view_new ();

  gtk_box_append (GTK_BOX (card), heading_new (title, response));
  if (response != NULL)
    gtk_box_append (GTK_BOX (card), table_new (response, g_array_index (sizes, SwSize, 0).day,
                                               g_array_index (sizes, SwSize, sizes->len - 1).day));
  gtk_box_append (GTK_BOX (card), findings);
  if (response != NULL)
    {
      sw_finding_view_set_findings (SW_FINDING_VIEW (findings), response->findings, FALSE);
      gtk_box_append (GTK_BOX (card), why_new (title, response));
    }
  else
    sw_finding_view_set_error (SW_FINDING_VIEW (findings), error);

  return card;
}
