/* sw-observation-section.c: looks at the dog after the injection
 *
 *   time   heart rate  gums        breathing   vomiting  site
 *   10:41  96          pink        easy        no        swollen, warm
 *   [    ] [    ]      [ pink v ]  [ easy v ]  [ no v ]  [            ]   [Record the Look]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-observation-section-private.h"

#include "sw-form.h"
#include "sw-observation.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>

#define COLUMNS 6

struct _SwObservationSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *due;
  GtkWidget *looks; /* a grid: head, looks on record, the row that is typed */
  SwQuantityEntry *time;
  SwQuantityEntry *heart_rate;
  GtkWidget *gums;
  GtkWidget *breathing;
  GtkWidget *vomiting;
  GtkWidget *site;
  SwFindingView *answer;

  GPtrArray *lines; /* labels of the looks, borrowed */
};

G_DEFINE_FINAL_TYPE (SwObservationSection, sw_observation_section, SW_TYPE_TREATMENT_SECTION)

/* Kept in the record as they stand here, shown in the reader's language. */
static const char *const gum_words[]
    = { N_ ("pink"), N_ ("pale"), N_ ("white"), N_ ("bright red"), N_ ("blue or grey"), NULL };
static const char *const breathing_words[] = { N_("easy"), N_("fast"), N_("laboured"), N_("noisy"), NULL };
static const char *const vomiting_words[] = { N_("no"), N_("yes"), NULL };

static GtkWidget *
choice_of (const char *name, const char *const *words)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; words[i] != NULL; i++)
    g_ptr_array_add (names, (gpointer) _(words[i]));
  g_ptr_array_add (names, NULL);
  return sw_choice_new (name, _("choose …"), (const char *const *) names->pdata);
}

/* --- recording --- */

static void
clear_fields (SwObservationSection *self)
{
  sw_quantity_entry_set_value (self->time, SW_UNKNOWN);
  sw_quantity_entry_set_value (self->heart_rate, SW_UNKNOWN);
  sw_choice_set (self->gums, TRUE, -1);
  sw_choice_set (self->breathing, TRUE, -1);
  sw_choice_set (self->vomiting, TRUE, -1);
  gtk_editable_set_text (GTK_EDITABLE (self->site), "");
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    clear_fields (SW_OBSERVATION_SECTION (owner));
}

static char *
chosen_word (GtkWidget *choice, const char *const *words)
{
  int chosen = sw_choice_get (choice, TRUE);

  return chosen >= 0 ? g_strdup (words[chosen]) : NULL;
}

static void
record_cb (GtkButton *button, SwObservationSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwPageContext *context = sw_treatment_section_context (section);
  int vomiting = sw_choice_get (self->vomiting, TRUE);
  SwObservation *look;
  SwRequest *request;
  gint64 minute, heart_rate;

  if (!sw_quantity_entry_take (self->time, &minute) || !sw_quantity_entry_take (self->heart_rate, &heart_rate))
    return;
  look = sw_new (SW_FACT_OBSERVATION, SwObservation);
  look->course = context->course;
  look->day = sw_page_context_now (context).day;
  look->minute = minute;
  look->heart_rate = heart_rate;
  look->gums = chosen_word (self->gums, gum_words);
  look->breathing = chosen_word (self->breathing, breathing_words);
  look->vomiting = vomiting >= 0 ? vomiting : SW_UNKNOWN;
  look->site = sw_field_dup_text (self->site);
  request = sw_treatment_section_request (section, SW_ACT_ASK_TODAY);
  sw_request_add (request, look);
  sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
}

/* --- showing --- */

static void
put_words (SwObservationSection *self, int column, int row, const char *words, const char *css)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (self->looks), label, column, row, 1, 1);
  g_ptr_array_add (self->lines, label);
}

static void
put_look (SwObservationSection *self, int row, const SwObservation *look)
{
  g_autofree char *time = sw_time_format ((int) look->minute);
  g_autofree char *heart_rate
      = look->heart_rate != SW_UNKNOWN ? g_strdup_printf ("%d", (int)look->heart_rate) : g_strdup ("–");

  put_words (self, 0, row, time, "figure");
  put_words (self, 1, row, heart_rate, "figure");
  put_words (self, 2, row, look->gums != NULL ? _(look->gums) : "–", NULL);
  put_words (self, 3, row, look->breathing != NULL ? _(look->breathing) : "–", NULL);
  put_words (self, 4, row, look->vomiting == SW_UNKNOWN ? "–" : look->vomiting ? _("yes") : _("no"), NULL);
  put_words (self, 5, row, look->site != NULL ? look->site : "–", NULL);
}

static void
place_fields (SwObservationSection *self, int row)
{
  GtkWidget *const fields[COLUMNS] = {
    GTK_WIDGET (self->time), GTK_WIDGET (self->heart_rate), self->gums, self->breathing, self->vomiting, self->site
  };
  GtkGridLayout *layout = GTK_GRID_LAYOUT (gtk_widget_get_layout_manager (self->looks));

  for (int i = 0; i < COLUMNS; i++)
    gtk_grid_layout_child_set_row (
        GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (GTK_LAYOUT_MANAGER (layout), fields[i])), row);
}

static void
show_looks (SwObservationSection *self, const SwPageContext *context)
{
  const SwObservation *look;
  int row = 1;

  for (guint i = 0; i < self->lines->len; i++)
    gtk_grid_remove (GTK_GRID (self->looks), self->lines->pdata[i]);
  g_ptr_array_set_size (self->lines, 0);
  for (guint i = 0; (look = sw_facts_next (&context->dossier->facts, SW_FACT_OBSERVATION, &i)) != NULL;)
    if (look->course == context->course)
      put_look (self, row++, look);
  place_fields (self, row);
}

static void
show_due (SwObservationSection *self, const SwCase *c)
{
  SwMoment next = sw_observation_next (c), until = sw_observation_until (c);
  g_autofree char *at = sw_time_format (next.minute), *end = sw_time_format (until.minute);
  g_autofree char *words = NULL;

  if (sw_moment_is_set (next))
    words = g_strdup_printf (_("The next look is due at %s; the dog is watched until %s."), at, end);
  else
    words = g_strdup (_("The time of observation is over and the last look is taken."));
  gtk_label_set_text (GTK_LABEL (self->due), words);
}

static void
sw_observation_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwObservationSection *self = SW_OBSERVATION_SECTION (section);
  SwCase c = sw_page_context_case (context);
  gboolean injected = sw_dossier_injection (context->dossier, context->course) != NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), injected);
  if (changes & (SW_CHANGED_PATIENT | SW_CHANGED_COURSE))
    clear_fields (self);
  if (!injected)
    return;
  show_due (self, &c);
  show_looks (self, context);
}

static gboolean
sw_observation_section_has_unsaved (SwTreatmentSection *section)
{
  SwObservationSection *self = SW_OBSERVATION_SECTION (section);
  g_autofree char *site = sw_field_dup_text (self->site);

  return sw_quantity_entry_is_edited (self->time) || sw_quantity_entry_is_edited (self->heart_rate) || site != NULL
         || sw_choice_get (self->gums, TRUE) >= 0 || sw_choice_get (self->breathing, TRUE) >= 0
         || sw_choice_get (self->vomiting, TRUE) >= 0;
}

static void
sw_observation_section_finalize (GObject *object)
{
  g_ptr_array_unref (SW_OBSERVATION_SECTION (object)->lines);
  G_OBJECT_CLASS (sw_observation_section_parent_class)->finalize (object);
}

static void
sw_observation_section_class_init (SwObservationSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_observation_section_finalize;
  section_class->update = sw_observation_section_update;
  section_class->has_unsaved = sw_observation_section_has_unsaved;
}

static void
make_fields (SwObservationSection *self)
{
  self->time = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_TIME, _("time of the look")));
  self->heart_rate = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_WHOLE, _("heart rate a minute")));
  self->gums = choice_of (_("gums"), gum_words);
  self->breathing = choice_of (_("breathing"), breathing_words);
  self->vomiting = choice_of (_("vomiting"), vomiting_words);
  self->site = sw_text_field_new (14);
  sw_quantity_entry_set_required (self->time, TRUE);
  gtk_widget_set_hexpand (self->site, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->site), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("the site at this look"), -1);
}

static void
make_table (SwObservationSection *self)
{
  static const char *const heads[COLUMNS]
      = { N_ ("time"), N_ ("heart rate"), N_ ("gums"), N_ ("breathing"), N_ ("vomiting"), N_ ("site") };
  GtkWidget *fields[COLUMNS];

  make_fields (self);
  fields[0] = GTK_WIDGET (self->time);
  fields[1] = GTK_WIDGET (self->heart_rate);
  fields[2] = self->gums;
  fields[3] = self->breathing;
  fields[4] = self->vomiting;
  fields[5] = self->site;
  self->looks = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self->looks), 6);
  gtk_grid_set_column_spacing (GTK_GRID (self->looks), 12);
  for (int i = 0; i < COLUMNS; i++)
    {
      GtkWidget *head = gtk_label_new (_(heads[i]));

      gtk_label_set_xalign (GTK_LABEL (head), 0);
      gtk_widget_add_css_class (head, "quiet");
      gtk_grid_attach (GTK_GRID (self->looks), head, i, 0, 1, 1);
      gtk_grid_attach (GTK_GRID (self->looks), fields[i], i, 1, 1, 1);
    }
}

static void
sw_observation_section_init (SwObservationSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *record = sw_button_new (_("Record the _Look"));

  self->lines = g_ptr_array_new ();
  sw_treatment_section_set_heading (section, _("Observation"));
  self->due = sw_quiet_new (NULL);
  make_table (self);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_widget_set_halign (record, GTK_ALIGN_END);
  sw_treatment_section_append (section, self->due);
  sw_treatment_section_append (section, self->looks);
  sw_treatment_section_append (section, record);
  sw_treatment_section_append (section, GTK_WIDGET (self->answer));
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);
}
