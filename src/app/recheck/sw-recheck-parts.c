/* sw-recheck-parts.c: what the parts of the page share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-recheck-private.h"

#include "sw-quantity-entry.h"
#include "sw-quantity.h"
#include "sw-wound.h"

#include <glib/gi18n-lib.h>

#define FACT "sw-recheck-fact"

/* --- visits --- */

gint64
sw_visit_root (const SwFacts *facts, gint64 visit)
{
  const SwFact *fact = sw_facts_by_id (facts, SW_FACT_VISIT, visit);

  while (fact != NULL && fact->replaces != 0)
    fact = sw_facts_by_id (facts, SW_FACT_VISIT, fact->replaces);
  return fact != NULL ? fact->id : 0;
}

const SwWound *
sw_visit_wound (const SwFacts *facts, const SwVisit *visit, gint64 tumour)
{
  gint64 root = sw_visit_root (facts, visit->fact.id);
  const SwWound *wound;

  for (guint i = 0; (wound = sw_facts_next (facts, SW_FACT_WOUND, &i)) != NULL;)
    if (wound->tumour == tumour && sw_visit_root (facts, wound->visit) == root)
      return wound;
  return NULL;
}

const SwLook *
sw_visit_look (const SwPageContext *context, gint64 tumour, SwDay day)
{
  SwLook like = { .fact.kind = SW_FACT_LOOK, .fact.patient = context->patient, .course = context->course,
                  .tumour = tumour, .day = day };

  return sw_facts_current_like (&context->dossier->facts, &like);
}

char *
sw_wound_words (const SwWound *wound)
{
  const char *state = sw_wound_state_name ((SwWoundState) wound->state);
  g_autofree char *length = NULL, *width = NULL, *mm2 = NULL;
  SwRatio area;

  if (wound->length == SW_UNKNOWN || !sw_wound_area (wound->length, wound->width, &area))
    return g_strdup (state);
  length = sw_length_format (wound->length);
  width = sw_length_format (wound->width);
  mm2 = sw_ratio_format (area, 0);
  return g_strdup_printf (_("%s, %s × %s mm, %s mm2"), state, length, width, mm2);
}

/* --- day and time --- */

GtkWidget *
sw_when_new (const char *day_name, const char *time_name, GtkWidget **day, GtkWidget **time)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  *day = sw_quantity_entry_new (SW_QUANTITY_DAY, day_name);
  sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (*day), TRUE);
  sw_quantity_entry_set_width_chars (SW_QUANTITY_ENTRY (*day), 11);
  gtk_box_append (GTK_BOX (line), *day);
  if (time != NULL)
    {
      *time = sw_quantity_entry_new (SW_QUANTITY_TIME, time_name);
      sw_quantity_entry_set_required (SW_QUANTITY_ENTRY (*time), TRUE);
      sw_quantity_entry_set_width_chars (SW_QUANTITY_ENTRY (*time), 6);
      gtk_box_append (GTK_BOX (line), *time);
    }

  return line;
}

void
sw_when_set (GtkWidget *day, GtkWidget *time, SwMoment moment)
{
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (day), moment.day);
  if (time != NULL)
    sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (time), moment.minute);
}

void
sw_when_offer (GtkWidget *day, GtkWidget *time, SwMoment moment)
{
  if (sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (day)))
    return; /* the time of another day is not now */
  sw_quantity_entry_offer_value (SW_QUANTITY_ENTRY (day), moment.day);
  if (time != NULL)
    sw_quantity_entry_offer_value (SW_QUANTITY_ENTRY (time), moment.minute);
}

gboolean
sw_when_take (GtkWidget *day, GtkWidget *time, SwMoment now, SwMoment *moment)
{
  gint64 minute = 0;

  if (!sw_quantity_entry_take (SW_QUANTITY_ENTRY (day), &moment->day))
    {
      gtk_widget_grab_focus (day);
      return FALSE;
    }
  if (time != NULL && !sw_quantity_entry_take (SW_QUANTITY_ENTRY (time), &minute))
    {
      gtk_widget_grab_focus (time);
      return FALSE;
    }
  moment->minute = (int) minute;
  if (sw_moment_compare (*moment, now) <= 0)
    return TRUE;
  sw_quantity_entry_set_error (SW_QUANTITY_ENTRY (day),
                               _("This has not come yet: only what has happened is recorded."));
  gtk_widget_grab_focus (day);
  return FALSE;
}

/* --- rows of lists --- */

typedef struct
{
  SwFactKind kind;
  gint64 id;
} Shown;

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

GtkListBox *
sw_recheck_list_new (const char *name)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);

  return GTK_LIST_BOX (list);
}

GtkWidget *
sw_recheck_row_new (const SwFact *fact, const char *when, const char *words, const char *who, GtkWidget *tools)
{
  GtkWidget *row = gtk_list_box_row_new (), *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = label_new (words, -1, sw_fact_is_current (fact) ? NULL : "quiet");
  g_autofree char *name = g_strdup_printf ("%s, %s, %s", when, words, who);
  Shown *shown = g_new (Shown, 1);

  *shown = (Shown){ fact->kind, fact->id };
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (line), label_new (when, 20, "figure"));
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), label_new (who, -1, "quiet"));
  if (tools != NULL)
    {
      gtk_widget_set_valign (tools, GTK_ALIGN_START);
      gtk_box_append (GTK_BOX (line), tools);
    }
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), line);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (row), FACT, shown, g_free);

  return row;
}

GtkWidget *
sw_recheck_row_find (GtkListBox *list, SwFactKind kind, gint64 id)
{
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (list));

  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    {
      const Shown *shown = g_object_get_data (G_OBJECT (row), FACT);

      if (shown != NULL && shown->kind == kind && shown->id == id)
        break;
    }
  return row;
}

void
sw_recheck_rows_clear (GtkListBox *list)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL)
    gtk_list_box_remove (list, row);
}
