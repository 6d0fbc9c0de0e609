/* walk-plan.c: from the work-up to the last dose told
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "walk-steps.h"

#include "sw-course-view.h"
#include "sw-question.h"
#include "sw-step-page.h"

#include <string.h>

#define PROTOCOL "Tigilanol tiglate, canine mast cell tumour (EU, UK)"

void
walk_open_course (Walk *walk)
{
  walk_step (walk, "Work-up");
  walk_find (walk, "Open the Course");
  walk_picture (walk, "work-up-course");
  walk_choose (walk, "protocol", PROTOCOL);
  walk_act (walk, "Open the Course");
  walk_picture (walk, "work-up-open");
}

/* By the question's code: the words are the program's own. */
static void
answer (Walk *walk, const char *code, const char *choice)
{
  const SwQuestion *question = sw_question (code);

  walk_choose (walk, question->name, sw_question_choice (question, choice)->name);
}

static char *
yesterday (Walk *walk)
{
  return sw_day_format (sw_record_get_now (sw_window_get_record (walk->window)).local.day - 1);
}

void
walk_answer_work_up (Walk *walk)
{
  static const char *const of_tumour[][2] = {
    { "sample", "cytology" }, { "grade", "cytology-low" }, { "resectable", "no" },   { "reachable", "yes" },
    { "surface", "unbroken" }, { "surgical-bed", "no" },    { "function-site", "no" },
  };
  static const char *const of_dog[][2] = {
    { "node", "sampled-negative" }, { "distant", "no" },        { "stage", "1" },        { "stage-edition", "who-1980" },
    { "mediator-signs", "none" },   { "breeding", "none" },     { "diabetes", "no" },    { "hyperadrenocorticism", "no" },
    { "gastric-ulcer", "no" },      { "corneal-ulcer", "no" },  { "infection", "no" },   { "heart-disease", "no" },
    { "kidney-disease", "no" },     { "liver-disease", "no" },
  };
  g_autofree char *day = yesterday (walk);

  walk_press (walk, "Tumours");
  for (guint i = 0; i < G_N_ELEMENTS (of_tumour); i++)
    answer (walk, of_tumour[i][0], of_tumour[i][1]);
  walk_type (walk, "tumour A, sampled, before any corticosteroid: sampled on", day);
  walk_act (walk, "Record the Answers");
  walk_picture (walk, "work-up-tumours");
  walk_press (walk, "The Dog");
  for (guint i = 0; i < G_N_ELEMENTS (of_dog); i++)
    answer (walk, of_dog[i][0], of_dog[i][1]);
  walk_type (walk, "WHO stage: staged on", day);
  walk_act (walk, "Record the Answers");
  walk_picture (walk, "work-up-dog");
  walk_press (walk, "Medicines");
  answer (walk, "medicine-history", "complete");
  answer (walk, "live-vaccine", "none");
  walk_act (walk, "Record the Answers");
  walk_picture (walk, "work-up-medicines");
}

void
walk_stage_again (Walk *walk)
{
  g_autofree char *day = yesterday (walk);

  walk_press (walk, "The Dog");
  walk_type (walk, "WHO stage: staged on", day);
  walk_act (walk, "Record the Answers");
}

void
walk_measure_tumour (Walk *walk, const char *length, const char *width, const char *height)
{
  walk_press (walk, "Tumours");
  walk_enter (walk, "tumour A, length of the next reading", length);
  walk_enter (walk, "tumour A, width of the next reading", width);
  walk_type (walk, "tumour A, height of the next reading", height);
  walk_act (walk, "Record the Reading");
}

void
walk_consent (Walk *walk)
{
  walk_press (walk, "Consent");
  walk_type (walk, "signed by", "Vera Example");
  walk_type (walk, "version of the sheet", "1");
  g_assert_cmpuint (walk_tick_all (walk), >, 5);
  walk_act (walk, "Record the Consent");
  walk_picture (walk, "work-up-consent");
  walk_press (walk, "What Is Open");
  walk_see (walk, "Nothing stands before the lead-in");
  walk_picture (walk, "work-up-done");
}

void
walk_sign_plan (Walk *walk, int treat)
{
  g_autofree char *day = sw_day_format (walk_day (walk, treat));

  walk_step (walk, "Lead-in");
  walk_type (walk, "treatment day", day);
  walk_picture (walk, "lead-in-draft");
  walk_act (walk, "Sign the Plan");
  walk_see (walk, "Day 0 is ");
  walk_picture (walk, "lead-in-signed");
}

/* --- doses --- */

static gint64
find_dose (Walk *walk, const char *substance, SwDay day, int hour)
{
  g_autoptr (SwDossier) dossier = walk_dossier (walk);
  g_autoptr (GPtrArray) doses = sw_dossier_doses (dossier, sw_dossier_last_course (dossier)->fact.id);

  for (guint i = 0; i < doses->len; i++)
    {
      const SwDosePlan *dose = doses->pdata[i];

      if (g_str_equal (dose->substance, substance) && dose->due_day == day && dose->due_minute == hour * SW_MINUTES_PER_HOUR)
        return dose->dose;
    }
  g_error ("no %s is planned at %d:00 of day %d", substance, hour, (int) (day - walk->first_day));
}

void
walk_tell_on_line (Walk *walk, const char *substance, int day, int hour, const char *button)
{
  GtkWidget *page = sw_window_get_patient_page (walk->window);
  GtkWidget *view = ui_find_type (page, SW_TYPE_COURSE_VIEW);
  GtkWidget *mark = sw_course_view_find_mark (SW_COURSE_VIEW (view), SW_FACT_DOSE,
                                              find_dose (walk, substance, walk_day (walk, day), hour));

  g_assert_nonnull (mark);
  gtk_widget_activate (mark);
  walk_type (walk, "told by", "the client, by phone");
  walk_picture (walk, "course-line-dose");
  walk_act (walk, button);
}

/* The name of the first button that is shown and whose name begins so. */
static char *
first_called (GtkWidget *root, const char *beginning)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (GTK_IS_BUTTON (root) && gtk_widget_is_sensitive (root))
    {
      g_autofree char *name = ui_name (root);

      if (name != NULL && g_str_has_prefix (name, beginning))
        return g_steal_pointer (&name);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      char *found = first_called (child, beginning);

      if (found != NULL)
        return found;
    }
  return NULL;
}

guint
walk_tell_all (Walk *walk)
{
  char *name;
  guint n = 0;

  walk_step (walk, "Lead-in");
  walk_type (walk, "told by", "the client, by phone");
  while ((name = first_called (GTK_WIDGET (walk->window), "Given: ")) != NULL)
    {
      walk_act (walk, name);
      g_free (name);
      n++;
    }
  return n;
}
