/* after-ui.c: what the tests of rechecks and response share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "after-ui.h"

#include "sw-course.h"
#include "sw-demo.h"
#include "sw-patient-page.h"

#include <string.h>

#define TODAY sw_day_from_ymd (2026, 5, 14)

static void
make_record (After *after)
{
  g_autofree char *script = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "ui", "after.txt", NULL);
  SwDemoOptions options = { .today = TODAY, .seed = 1, .script = script };

  after->folder = ui_demo (&options);
  after->clock = sw_clock_new_at ((SwMoment){ TODAY, 9 * 60 + 40 });
}

SwDossier *
after_dossier (After *after)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (after->folder, after->clock, &error);
  SwDossier *dossier;

  g_assert_no_error (error);
  dossier = sw_desk_load_dossier (desk, after->patient, &error);
  g_assert_no_error (error);
  return dossier;
}

gint64
after_course (const SwDossier *dossier)
{
  return sw_dossier_last_course (dossier)->fact.id;
}

SwCase
after_case (After *after, const SwDossier *dossier, gint64 course)
{
  SwCase c;

  sw_record_get_case (sw_window_get_record (after->window), dossier, course, &c);
  return c;
}

After *
after_new (gint64 patient, const char *step)
{
  After *after = g_new0 (After, 1);
  g_autoptr (SwDossier) dossier = NULL;

  make_record (after);
  after->patient = patient;
  dossier = after_dossier (after);
  after->zero = sw_dossier_injection (dossier, after_course (dossier))->day;
  after->window = ui_open (after->folder, after->clock);
  after->page = sw_window_get_patient_page (after->window);
  ui_show_patient (after->window, patient);
  after_step (after, step);
  return after;
}

void
after_free (After *after)
{
  ui_close (after->window);
  ui_forget (after->folder);
  sw_clock_unref (after->clock);
  g_free (after->folder);
  g_free (after);
}

void
after_step (After *after, const char *step)
{
  ck_assert (sw_patient_page_show_step (SW_PATIENT_PAGE (after->page), step));
  ui_settle ();
}

static gboolean
is_other (gpointer page)
{
  return sw_patient_page_get_foot (page) != NULL;
}

/* Another dog and back: the page then starts on the new day. */
void
after_day (After *after, int day)
{
  sw_clock_set (after->clock, (SwMoment){ after->zero + day, 11 * 60 });
  ui_show_patient (after->window, ARLO + LARK - after->patient);
  ui_show_patient (after->window, after->patient);
  ui_wait (is_other, after->page, "the new day");
  ui_settle ();
}

/* --- looking at the page as a person does: only what is shown --- */

typedef gboolean (*Wanted) (GtkWidget *widget, const char *words);

static GtkWidget *
find (GtkWidget *root, Wanted wanted, const char *words)
{
  GtkWidget *found = NULL;

  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (wanted (root, words))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, wanted, words);
  return found;
}

static gboolean
is_named (GtkWidget *widget, const char *words)
{
  g_autofree char *name = GTK_IS_TEXT (widget) || GTK_IS_LABEL (widget) ? NULL : ui_name (widget);

  return name != NULL && g_str_equal (name, words);
}

static gboolean
labels_field (GtkWidget *widget, const char *words)
{
  return GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), words)
         && gtk_label_get_mnemonic_widget (GTK_LABEL (widget)) != NULL;
}

static gboolean
says (GtkWidget *widget, const char *words)
{
  return GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words) != NULL;
}

static GtkWidget *
named (After *after, const char *name)
{
  GtkWidget *found = find (after->page, labels_field, name);

  if (found != NULL)
    return gtk_label_get_mnemonic_widget (GTK_LABEL (found));
  return find (after->page, is_named, name);
}

gboolean
after_has (After *after, const char *name)
{
  return named (after, name) != NULL;
}

GtkWidget *
after_named (After *after, const char *name)
{
  GtkWidget *widget = named (after, name);

  ck_assert_msg (widget != NULL, "nothing is called %s", name);
  return widget;
}

gboolean
after_says (After *after, const char *words)
{
  return find (after->page, says, words) != NULL;
}

typedef struct
{
  After *after;
  const char *words;
} Said;

static gboolean
is_said (gpointer data)
{
  Said *said = data;

  return after_says (said->after, said->words);
}

void
after_wait_says (After *after, const char *words)
{
  Said said = { after, words };

  ui_wait (is_said, &said, words);
}

/* --- acts --- */

static GtkWidget *
editable (After *after, const char *name)
{
  GtkWidget *entry = ui_find_type (after_named (after, name), GTK_TYPE_ENTRY);

  ck_assert_msg (entry != NULL, "%s is no entry", name);
  return entry;
}

void
after_type (After *after, const char *name, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (editable (after, name)), text);
  ui_settle ();
}

void
after_enter (After *after, const char *name, const char *text)
{
  GtkWidget *entry = editable (after, name);

  ck_assert (gtk_widget_grab_focus (entry));
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
  ui_settle ();
}

void
after_choose (After *after, const char *name, const char *choice)
{
  GtkWidget *widget = after_named (after, name);
  GtkDropDown *down = GTK_DROP_DOWN (gtk_widget_get_ancestor (widget, GTK_TYPE_DROP_DOWN)); /* or itself */
  GListModel *choices = gtk_drop_down_get_model (down);

  for (guint i = 0; i < g_list_model_get_n_items (choices); i++)
    if (g_str_equal (gtk_string_list_get_string (GTK_STRING_LIST (choices), i), choice))
      {
        gtk_drop_down_set_selected (down, i);
        ui_settle ();
        return;
      }
  ck_abort_msg ("%s offers no %s", name, choice);
}

void
after_press (After *after, const char *words)
{
  while (!ui_press_by_key (after_named (after, words)))
    ;
}

void
after_open (After *after, const char *expander)
{
  gtk_expander_set_expanded (GTK_EXPANDER (after_named (after, expander)), TRUE);
  ui_settle ();
}

/* --- names --- */

static gboolean
takes_focus (GtkWidget *widget)
{
  return gtk_widget_get_focusable (widget) && gtk_widget_get_sensitive (widget) && !GTK_IS_TEXT (widget);
}

/* A drop-down is one thing to the keyboard: its button. */
static void
check_names (GtkWidget *widget, GHashTable *names)
{
  gboolean is_choice = GTK_IS_DROP_DOWN (widget);
  GtkWidget *focus = is_choice ? gtk_widget_get_first_child (widget) : widget;

  if (!gtk_widget_get_mapped (widget))
    return;
  if (takes_focus (focus))
    {
      g_autofree char *name = ui_name (focus);

      ck_assert_msg (name != NULL, "%s has no name", G_OBJECT_TYPE_NAME (widget));
      ck_assert_msg (!g_hash_table_contains (names, name), "two widgets are called %s", name);
      g_hash_table_add (names, g_steal_pointer (&name));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && !is_choice;
       child = gtk_widget_get_next_sibling (child))
    check_names (child, names);
}

void
after_check_names (After *after)
{
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  check_names (after->page, names);
  ck_assert_uint_gt (g_hash_table_size (names), 5);
}
