/* ui-treatment.c: what the tests of the treatment day's page share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-treatment.h"

#include "sw-demo.h"
#include "sw-patient-page.h"
#include "sw-treatment-page.h"

#include <string.h>

#define TODAY 20587 /* 2026-05-14 */

/* --- the day --- */

static char *
make_record (SwMoment *now)
{
  g_autofree char *script = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "ui", "treatment.txt", NULL);
  SwDemoOptions options = { .seed = 1, .today = TODAY, .script = script };

  *now = sw_demo_now (&options);
  return ui_demo (&options);
}

UiDay *
ui_day_new (gint64 patient)
{
  UiDay *day = g_new0 (UiDay, 1);
  SwMoment now;

  day->folder = make_record (&now);
  day->clock = sw_clock_new_at (now);
  day->window = ui_open (day->folder, day->clock);
  sw_window_set_person (day->window, INES);
  ui_day_show (day, patient);

  return day;
}

void
ui_day_show (UiDay *day, gint64 patient)
{
  ui_show_patient (day->window, patient);
  g_assert_true (sw_patient_page_show_step (SW_PATIENT_PAGE (sw_window_get_patient_page (day->window)), "treatment"));
  day->page = ui_find_type (sw_window_get_patient_page (day->window), SW_TYPE_TREATMENT_PAGE);
  ui_settle ();
}

void
ui_day_at (UiDay *day, int hours, int minutes)
{
  sw_clock_set (day->clock, (SwMoment){ TODAY, hours * SW_MINUTES_PER_HOUR + minutes });
}

SwDossier *
ui_dossier (UiDay *day, gint64 patient)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (day->folder, day->clock, &error);
  SwDossier *dossier;

  g_assert_no_error (error);
  dossier = sw_desk_load_dossier (desk, patient, &error);
  g_assert_no_error (error);

  return dossier;
}

void
ui_keep_picture (UiDay *day, const char *name, double scroll)
{
  GtkWidget *scrolled = ui_find_type (day->page, GTK_TYPE_SCROLLED_WINDOW);
  const char *folder = g_getenv ("SW_PHOTOGRAPHS");
  g_autofree char *file = folder != NULL ? g_strdup_printf ("%s/%s.png", folder, name) : NULL;

  if (file == NULL)
    return;
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled)), scroll);
  ui_settle ();
  ui_photograph (GTK_WIDGET (day->window), file);
}

/* --- widgets --- */

/* Fields of forms are named by the label beside them. */
static gboolean
is_label_of_entry (GtkWidget *widget, const char *name)
{
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), name) == 0
         && GTK_IS_ENTRY (gtk_label_get_mnemonic_widget (GTK_LABEL (widget)));
}

static GtkWidget *
find_named (GtkWidget *root, const char *name)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (ui_takes_focus (root) || GTK_IS_ENTRY (root))
    {
      g_autofree char *own = ui_name (root);

      if (g_strcmp0 (own, name) == 0)
        return root;
    }
  if (is_label_of_entry (root, name))
    return gtk_label_get_mnemonic_widget (GTK_LABEL (root));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_named (child, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
ui_has_named (GtkWidget *root, const char *name)
{
  return find_named (root, name) != NULL;
}

GtkWidget *
ui_named (GtkWidget *root, const char *name)
{
  GtkWidget *widget = find_named (root, name);

  ck_assert_msg (widget != NULL, "nothing shown is called “%s”", name);
  return widget;
}

gboolean
ui_shows (GtkWidget *root, const char *text)
{
  if (!gtk_widget_get_mapped (root))
    return FALSE;
  if (GTK_IS_LABEL (root) && strstr (gtk_label_get_text (GTK_LABEL (root)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (ui_shows (child, text))
      return TRUE;
  return FALSE;
}

typedef struct
{
  GtkWidget *root;
  const char *text;
} Shown;

static gboolean
is_shown (gpointer data)
{
  Shown *shown = data;

  return ui_shows (shown->root, shown->text);
}

void
ui_wait_shows (GtkWidget *root, const char *text)
{
  Shown shown = { root, text };

  ui_wait (is_shown, &shown, text);
}

void
ui_fill (GtkWidget *root, const char *name, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (ui_named (root, name)), text);
}

void
ui_enter (GtkWidget *root, const char *name, const char *text)
{
  GtkWidget *entry = ui_named (root, name);

  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

void
ui_choose (GtkWidget *root, const char *name, const char *choice)
{
  GtkDropDown *drop_down = GTK_DROP_DOWN (gtk_widget_get_ancestor (ui_named (root, name), GTK_TYPE_DROP_DOWN));
  GListModel *choices = gtk_drop_down_get_model (drop_down);

  for (guint i = 0; i < g_list_model_get_n_items (choices); i++)
    if (g_strcmp0 (gtk_string_list_get_string (GTK_STRING_LIST (choices), i), choice) == 0)
      {
        gtk_drop_down_set_selected (drop_down, i);
        return;
      }
  ck_abort_msg ("“%s” does not offer “%s”", name, choice);
}

void
ui_tick (GtkWidget *root, const char *name)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (ui_named (root, name)), TRUE);
}

static GtkWidget *
find_shown_button (GtkWidget *root, const char *words)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (GTK_IS_BUTTON (root))
    {
      GtkWidget *label = ui_find_type (root, GTK_TYPE_LABEL);

      if (label != NULL && g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), words) == 0)
        return root;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_shown_button (child, words);

      if (found != NULL)
        return found;
    }
  return NULL;
}

void
ui_press (GtkWidget *root, const char *words)
{
  GtkWidget *button = find_shown_button (root, words);

  ck_assert_msg (button != NULL, "no button shown says “%s”", words);
  ck_assert_msg (gtk_widget_is_sensitive (button), "“%s” can't be pressed", words);
  ui_click (button);
}

static gboolean
has_dialog (gpointer day)
{
  GtkWidget *dialog = ui_dialog (((UiDay *) day)->window);

  return dialog != NULL && gtk_widget_get_mapped (dialog);
}

void
ui_answer (UiDay *day, const char *words)
{
  ui_wait (has_dialog, day, "a question");
  ui_press (ui_dialog (day->window), words);
}

static void
gone_cb (gpointer data, GObject *window)
{
  *(gboolean *) data = TRUE;
}

static gboolean
is_gone (gpointer gone)
{
  return *(gboolean *) gone;
}

/* What a test left unsaved is asked about, as ever. */
static void
close_window (UiDay *day)
{
  gboolean gone = FALSE;

  g_object_weak_ref (G_OBJECT (day->window), gone_cb, &gone);
  gtk_window_close (GTK_WINDOW (day->window));
  ui_settle ();
  if (has_dialog (day))
    ui_answer (day, "Close");
  ui_wait (is_gone, &gone, "the window to close");
}

void
ui_day_free (UiDay *day)
{
  close_window (day);
  ui_forget (day->folder);
  g_free (day->folder);
  sw_clock_unref (day->clock);
  g_free (day);
}

/* --- acts --- */

void
ui_day_weigh_and_measure (UiDay *day)
{
  ui_enter (day->page, "weight today", "24.6");
  ui_enter (day->page, "tumour A, reading 1, length in mm", "21.4");
  ui_enter (day->page, "tumour A, reading 1, width in mm", "18,0");
  ui_enter (day->page, "tumour A, reading 1, height in mm", "8.9 mm");
  ui_enter (day->page, "tumour A, reading 2, length in mm", "2.10 cm");
  ui_enter (day->page, "tumour A, reading 2, width in mm", "17.6");
  ui_enter (day->page, "tumour A, reading 2, height in mm", "9.1");
  ui_wait_shows (day->page, "0.85 mL");
}

void
ui_day_answer_all (UiDay *day)
{
  static const char *const choices[][2] = {
    { "vomiting in the last 24 hours", "none" },
    { "stool", "normal" },
    { "appetite", "normal" },
    { "any NSAID since the lead-in was planned", "no" },
    { "regional nodes", "felt, unchanged" },
    { "new lumps", "no" },
    { "suitability", "asked again, stands" },
    { "surface today, tumour A", "unbroken over all of the mass" },
    { "tumour marked, tumour A", "on the skin" },
    { "vein access", "catheter placed" },
    { "restraint", "none" },
    { "a sedative likely to cause vomiting", "no" },
    { "last food", "a mouthful with the medicines" },
    { "last water", "drinks freely" },
  };
  static const char *const ticks[] = {
    "adrenaline",
    "fluids for the vein",
    "injectable antihistamine",
    "injectable corticosteroid",
    "oxygen",
    "eye protection",
    "gloves",
    "Luer-lock syringe, low dead space",
    "sharps box at hand, no recapping",
  };

  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    ui_choose (day->page, choices[i][0], choices[i][1]);
  for (guint i = 0; i < G_N_ELEMENTS (ticks); i++)
    ui_tick (day->page, ticks[i]);
  ui_press (day->page, "Record Today's Answers");
  ui_wait_shows (day->page, "23 of 23 answers on record");
}

void
ui_day_read_aloud (UiDay *day)
{
  ui_choose (day->page, "read aloud by", "Tomas");
  ui_press (day->page, "Record the Reading Aloud");
  ui_wait_shows (day->page, "Read aloud by Tomas");
}

static void
confirm_release (UiDay *day)
{
  ui_press (day->page, "Release the Dose");
  ui_wait_shows (ui_dialog (day->window),
                 "tumour A, left hock: 21.4 × 18.0 × 8.9; 21.0 × 17.6 × 9.1 mm; inject 0.85 mL");
  ui_answer (day, "Release the Dose");
  ui_wait_shows (day->page, "Released by Ines");
}

void
ui_day_release (UiDay *day)
{
  ui_day_weigh_and_measure (day);
  ui_day_answer_all (day);
  ui_day_read_aloud (day);
  confirm_release (day);
}
