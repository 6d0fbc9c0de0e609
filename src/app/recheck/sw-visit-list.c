/* sw-visit-list.c: the visits of a course so far
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-visit-list-private.h"

#include "sw-course-words.h"
#include "sw-course.h"
#include "sw-form.h"
#include "sw-quantity.h"
#include "sw-recheck-private.h"

#include <glib/gi18n-lib.h>

static void
add_part (GString *words, const char *part)
{
  if (words->len > 0 && words->str[words->len - 1] != '\n')
    g_string_append (words, "; ");
  g_string_append (words, part);
}

static void
add_readings (GString *words, const SwDossier *dossier, gint64 tumour, SwDay day)
{
  g_autoptr (GPtrArray) readings = sw_dossier_readings (dossier, tumour, day);

  for (guint i = 0; i < readings->len; i++)
    {
      const SwReading *reading = readings->pdata[i];
      const gint64 axes[] = { reading->axis1, reading->axis2, reading->axis3 };
      g_autofree char *size = sw_reading_format (axes);
      g_autofree char *part = g_strdup_printf ("%s mm", size);

      add_part (words, part);
    }
}

/* "Tumour A, left hock: open, 18.0 × 12.0 mm, 170 mm2; 12.1 × 8.0 × 5.0 mm" */
static void
add_site (GString *words, const SwPageContext *context, const SwVisit *visit, gint64 tumour)
{
  const SwDossier *dossier = context->dossier;
  const SwWound *wound = sw_visit_wound (&dossier->facts, visit, tumour);
  const SwLook *look = sw_visit_look (context, tumour, visit->day);
  g_autofree char *title = sw_words_tumour (dossier, tumour);
  g_autofree char *state = wound != NULL ? sw_wound_words (wound) : NULL;
  g_autoptr (GString) site = g_string_new (NULL);

  if (wound != NULL && wound->state != SW_WOUND_NONE_YET)
    g_string_append_printf (site, _("wound %s"), state);
  else if (wound != NULL)
    add_part (site, state);
  if (look != NULL)
    add_part (site, sw_look_state_name ((SwLookState) look->state));
  if (visit->day > sw_course_day_zero (dossier, visit->course)) /* those of the treatment day are the baseline */
    add_readings (site, dossier, tumour, visit->day);
  if (site->len > 0)
    g_string_append_printf (words, "\n%s: %s", title, site->str);
}

static void
add_contact (GString *words, const SwVisit *visit)
{
  add_part (words, sw_visit_mode_name ((SwVisitMode) visit->mode));
  if (visit->pain != SW_UNKNOWN)
    {
      g_autofree char *pain = g_strdup_printf (_("pain %d of 10"), (int) visit->pain);

      add_part (words, pain);
    }
  if (visit->cover != SW_UNKNOWN)
    add_part (words, sw_cover_name ((SwCover) visit->cover));
  if (visit->cover_until != SW_NO_DAY)
    {
      g_autofree char *day = sw_day_format (visit->cover_until), *until = g_strdup_printf (_("until %s"), day);

      add_part (words, until);
    }
  if (visit->note != NULL)
    add_part (words, visit->note);
}

static char *
words_of (const SwPageContext *context, const SwVisit *visit)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, visit->course);
  GString *words = g_string_new (NULL);

  add_contact (words, visit);
  for (guint i = 0; sw_fact_is_current (visit) && i < tumours->len; i++)
    add_site (words, context, visit, g_array_index (tumours, gint64, i));
  return g_string_free (words, FALSE);
}

static char *
who_of (const SwPageContext *context, const SwVisit *visit)
{
  g_autofree char *who = sw_words_recorded (context, &visit->fact);

  if (visit->fact.withdrawn)
    return g_strdup_printf (_("%s, taken back"), who);
  if (visit->fact.replaced_by != 0)
    return g_strdup_printf (_("%s, corrected since"), who);
  return visit->fact.replaces != 0 ? g_strdup_printf (_("%s, a correction"), who) : g_steal_pointer (&who);
}

typedef struct
{
  SwStepPage *page; /* borrowed: it holds the list */
  gint64 visit;
  SwVisitAct act;
} Tool;

static void
tool_cb (GtkButton *button, Tool *tool)
{
  const SwPageContext *context = sw_step_page_get_context (tool->page);
  const SwVisit *visit = sw_facts_by_id (&context->dossier->facts, SW_FACT_VISIT, tool->visit);

  if (visit != NULL)
    tool->act (tool->page, visit);
}

static void
add_tool (GtkWidget *tools, SwStepPage *page, const SwVisit *visit, const char *words, const char *when, SwVisitAct act)
{
  g_autofree char *name = g_strdup_printf (_("%s: visit of %s"), words, when);
  GtkWidget *button = sw_named_button_new (words, name);
  Tool *tool = g_new (Tool, 1);

  *tool = (Tool){ page, visit->fact.id, act };
  gtk_widget_add_css_class (button, "flat");
  g_signal_connect_data (button, "clicked", G_CALLBACK (tool_cb), tool, (GClosureNotify) (void (*) (void)) g_free, 0);
  gtk_box_append (GTK_BOX (tools), button);
}

static void
add_row (GtkListBox *list, SwStepPage *page, const SwVisit *visit, SwVisitAct correct, SwVisitAct take_back)
{
  const SwPageContext *context = sw_step_page_get_context (page);
  SwCase c = sw_page_context_case (context);
  g_autofree char *day = sw_words_day (&c, visit->day), *time = sw_time_format ((int) visit->minute);
  g_autofree char *when = g_strdup_printf ("%s %s", day, time);
  g_autofree char *words = words_of (context, visit), *who = who_of (context, visit);
  GtkWidget *tools = NULL;

  if (sw_fact_is_current (visit))
    {
      tools = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
      add_tool (tools, page, visit, _("Correct"), when, correct);
      add_tool (tools, page, visit, _("Take Back"), when, take_back);
    }
  gtk_list_box_append (list, sw_recheck_row_new (&visit->fact, when, words, who, tools));
}

/* The later day first; on one day the later row. */
static int
newest_first (gconstpointer a, gconstpointer b)
{
  const SwVisit *first = *(const SwVisit *const *) a, *second = *(const SwVisit *const *) b;
  SwMoment at = { first->day, (int) first->minute }, other = { second->day, (int) second->minute };
  int order = sw_moment_compare (other, at);

  return order != 0 ? order : (second->fact.id > first->fact.id) - (second->fact.id < first->fact.id);
}

guint
sw_visit_list_fill (GtkListBox *list, SwStepPage *page, SwVisitAct correct, SwVisitAct take_back)
{
  const SwPageContext *context = sw_step_page_get_context (page);
  const GPtrArray *rows = context->dossier->facts.rows[SW_FACT_VISIT];
  g_autoptr (GPtrArray) visits = g_ptr_array_new ();

  sw_recheck_rows_clear (list);
  for (guint i = 0; i < rows->len; i++)
    if (((const SwVisit *) rows->pdata[i])->course == context->course)
      g_ptr_array_add (visits, rows->pdata[i]);
  g_ptr_array_sort (visits, newest_first);
  for (guint i = 0; i < visits->len; i++)
    add_row (list, page, visits->pdata[i], correct, take_back);
  return visits->len;
}
