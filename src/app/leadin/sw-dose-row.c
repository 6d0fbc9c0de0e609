/* sw-dose-row.c: one dose, and what became of it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-row-private.h"

#include "sw-dose-shape-private.h"
#include "sw-dose-words-private.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-step-page.h"

#include <glib/gi18n-lib.h>

enum { TELL_GIVEN, TELL_LATE, TELL_MISSED, TELL_VOMITED, N_TELLS };

static const struct
{
  SwDoseState state;
  const char *label;
} tells[N_TELLS] = {
  [TELL_GIVEN] = { SW_DOSE_GIVEN, N_("Given") },
  [TELL_LATE] = { SW_DOSE_LATE, N_("Late…") },
  [TELL_MISSED] = { SW_DOSE_MISSED, N_("Missed") },
  [TELL_VOMITED] = { SW_DOSE_VOMITED, N_("Vomited") },
};

struct _SwDoseRow
{
  GtkBox parent_instance;

  /* borrowed */
  GtkWidget *told_by;

  /* children */
  GtkWidget *shape;
  GtkLabel *time;
  GtkLabel *medicine;
  GtkLabel *tablets;
  GtkLabel *standing;
  GtkWidget *telling; /* the four answers */
  GtkWidget *tell[N_TELLS];
  GtkWidget *correct;
  GtkWidget *take_back;
  GtkWidget *stop;
  GtkWidget *late;
  SwQuantityEntry *late_at;
  GtkWidget *late_record;
  SwFindingView *answer;

  gint64 dose;
  gint64 seen;         /* the event row that is shown; 0: not told */
  gboolean correcting;
  gboolean may_tell;
};

G_DEFINE_FINAL_TYPE (SwDoseRow, sw_dose_row, GTK_TYPE_BOX)

enum { TOLD, N_SIGNALS };

static guint signals[N_SIGNALS];

static SwStepPage *
page_of (SwDoseRow *self)
{
  return SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
}

static const SwDosePlan *
find_dose (SwDoseRow *self)
{
  const SwDossier *dossier = sw_step_page_get_context (page_of (self))->dossier;
  const SwDosePlan *plan;

  for (guint i = 0; (plan = sw_facts_next (&dossier->facts, SW_FACT_DOSE_PLAN, &i)) != NULL;)
    if (plan->dose == self->dose)
      return plan;
  return NULL;
}

static void
show_buttons (SwDoseRow *self)
{
  gboolean told = self->seen != 0;

  gtk_widget_set_visible (self->telling, self->may_tell && (!told || self->correcting));
  gtk_widget_set_visible (self->correct, self->may_tell && told && !self->correcting);
  gtk_widget_set_visible (self->take_back, self->may_tell && told && !self->correcting);
  if (!gtk_widget_get_visible (self->telling))
    gtk_widget_set_visible (self->late, FALSE);
}

static void
replied_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwDoseRow *self = data;

  if (reply == NULL || !reply->done)
    return;
  self->correcting = FALSE;
  sw_quantity_entry_set_value (self->late_at, SW_UNKNOWN);
  gtk_widget_set_visible (self->late, FALSE);
  g_signal_emit (self, signals[TOLD], 0);
}

static void
perform (SwDoseRow *self, SwRequest *request)
{
  sw_step_page_perform (page_of (self), request, self->answer, replied_cb, self);
}

static void
tell (SwDoseRow *self, SwDoseState state, SwMoment given)
{
  const SwPageContext *context = sw_step_page_get_context (page_of (self));
  g_autofree char *told_by = sw_field_dup_text (self->told_by);

  perform (self, sw_request_tick (context->person, context->patient, self->dose, self->seen, state, given, told_by));
}

static void
tell_late (SwDoseRow *self)
{
  const SwDosePlan *dose = find_dose (self);
  gint64 minute;

  if (dose == NULL)
    return;
  if (!sw_quantity_entry_take (self->late_at, &minute))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->late_at));
      return;
    }
  tell (self, SW_DOSE_LATE,
        sw_dose_moment_told (dose, (int) minute, sw_page_context_now (sw_step_page_get_context (page_of (self)))));
}

static void
tell_clicked_cb (GtkButton *button, gpointer which)
{
  SwDoseRow *self = SW_DOSE_ROW (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_DOSE_ROW));
  int n = GPOINTER_TO_INT (which);

  if (n != TELL_LATE)
    {
      tell (self, tells[n].state, SW_NO_MOMENT);
      return;
    }
  gtk_widget_set_visible (self->late, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->late_at));
}

static void
late_accepted_cb (SwQuantityEntry *entry, gint64 value, SwDoseRow *self)
{
  gtk_widget_grab_focus (self->late_record); /* a burst of a caliper ticks nothing */
}

static void
late_record_cb (GtkButton *button, SwDoseRow *self)
{
  tell_late (self);
}

static void
correct_cb (GtkButton *button, SwDoseRow *self)
{
  self->correcting = TRUE;
  show_buttons (self);
  gtk_widget_grab_focus (self->tell[TELL_GIVEN]);
}

static void
take_back_cb (GtkButton *button, SwDoseRow *self)
{
  const SwPageContext *context = sw_step_page_get_context (page_of (self));
  const SwDoseEvent *event = sw_dossier_dose_event (context->dossier, self->dose);

  if (event != NULL)
    perform (self, sw_request_untick (context->person, context->patient, event));
}

static void
stop_reasoned (const char *reason, gpointer data)
{
  SwDoseRow *self = data;
  const SwPageContext *context;
  SwRequest *request;

  if (reason == NULL || page_of (self) == NULL)
    return;
  context = sw_step_page_get_context (page_of (self));
  request = sw_request_stop_dose (context->person, context->patient, self->dose, reason);
  request->seen = self->seen;
  perform (self, request);
}

static void
stop_cb (GtkButton *button, SwDoseRow *self)
{
  const SwDosePlan *dose = find_dose (self);
  g_autofree char *words = dose != NULL ? sw_dose_words (dose) : NULL;

  if (dose != NULL)
    sw_dialog_reason (GTK_WIDGET (self), _("Stop this dose?"), words, _("Stop the Dose"), stop_reasoned, self);
}

/* The words of the button, then the dose: what a screen reader says is told apart from the other rows. */
static void
name_button (GtkWidget *button, const char *label, const char *dose)
{
  g_autofree char *name = g_strdup_printf ("%s: %s", label, dose);

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
name_all (SwDoseRow *self, const SwDosePlan *dose)
{
  g_autofree char *words = sw_dose_words (dose);
  g_autofree char *given_at = g_strdup_printf (_("given at: %s"), words);

  for (int i = 0; i < N_TELLS; i++)
    name_button (self->tell[i], _(tells[i].label), words);
  name_button (self->correct, _("Correct…"), words);
  name_button (self->take_back, _("Take Back"), words);
  name_button (self->stop, _("Stop…"), words);
  name_button (self->late_record, _("Record as Late"), words);
  sw_quantity_entry_set_name (self->late_at, given_at);
}

static GtkWidget *
small_button_new (const char *label)
{
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), gtk_label_new (label));
  gtk_widget_add_css_class (button, "small");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);

  return button;
}

static GtkWidget *
connected_button_new (SwDoseRow *self, GtkWidget *box, const char *label, GCallback callback)
{
  GtkWidget *button = small_button_new (label);

  g_signal_connect (button, "clicked", callback, self);
  gtk_box_append (GTK_BOX (box), button);

  return button;
}

static GtkLabel *
column_new (GtkWidget *box, int width_chars, gboolean expand)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), width_chars);
  gtk_label_set_wrap (GTK_LABEL (label), expand);
  gtk_widget_set_hexpand (label, expand);
  gtk_box_append (GTK_BOX (box), label);

  return GTK_LABEL (label);
}

static void
add_telling (SwDoseRow *self, GtkWidget *line)
{
  self->telling = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 3);
  for (int i = 0; i < N_TELLS; i++)
    {
      self->tell[i] = small_button_new (_(tells[i].label));
      g_signal_connect (self->tell[i], "clicked", G_CALLBACK (tell_clicked_cb), GINT_TO_POINTER (i));
      gtk_box_append (GTK_BOX (self->telling), self->tell[i]);
    }
  gtk_box_append (GTK_BOX (line), self->telling);
}

static void
add_late (SwDoseRow *self)
{
  self->late = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->late_at = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_TIME, _("given at")));
  sw_quantity_entry_set_required (self->late_at, TRUE);
  gtk_widget_set_halign (self->late, GTK_ALIGN_END);
  gtk_widget_set_visible (self->late, FALSE);
  gtk_box_append (GTK_BOX (self->late), sw_quiet_new (_("given at")));
  gtk_box_append (GTK_BOX (self->late), GTK_WIDGET (self->late_at));
  self->late_record = connected_button_new (self, self->late, _("Record as Late"), G_CALLBACK (late_record_cb));
  g_signal_connect (self->late_at, "accepted", G_CALLBACK (late_accepted_cb), self);
  gtk_box_append (GTK_BOX (self), self->late);
}

static void
sw_dose_row_class_init (SwDoseRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  signals[TOLD]
      = g_signal_new ("told", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "doserow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_dose_row_init (SwDoseRow *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 3);
  self->time = column_new (line, 6, FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->time), "figure");
  self->medicine = column_new (line, 15, FALSE);
  self->tablets = column_new (line, 22, FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->tablets), "figure");
  self->shape = sw_dose_shape_new ();
  gtk_box_append (GTK_BOX (line), self->shape);
  self->standing = column_new (line, 9, TRUE);
  add_telling (self, line);
  self->correct = connected_button_new (self, line, _("Correct…"), G_CALLBACK (correct_cb));
  self->take_back = connected_button_new (self, line, _("Take Back"), G_CALLBACK (take_back_cb));
  self->stop = connected_button_new (self, line, _("Stop…"), G_CALLBACK (stop_cb));
  gtk_box_append (GTK_BOX (self), line);
  add_late (self);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
}

GtkWidget *
sw_dose_row_new (GtkWidget *told_by)
{
  SwDoseRow *self = g_object_new (SW_TYPE_DOSE_ROW, NULL);

  self->told_by = told_by;
  return GTK_WIDGET (self);
}

/* "in place of the dose of Tue 20:00" stands with the dose that the vet ordered. */
static char *
medicine_words (const SwDosePlan *dose)
{
  return dose->instead_of != 0 ? g_strdup_printf (_("%s, again"), dose->substance) : g_strdup (dose->substance);
}

static gboolean
may_be_told (SwStanding standing)
{
  return standing != SW_STANDING_PLANNED;
}

void
sw_dose_row_show (SwDoseRow *self, const SwPageContext *context, const SwDosePlan *dose, SwDoseRowUse use)
{
  SwCase c = sw_page_context_case (context);
  SwStanding standing = sw_dose_state (&c, dose);
  const SwDoseEvent *event = sw_dossier_dose_event (c.dossier, dose->dose);
  gint64 roles = sw_page_context_roles (context);
  g_autofree char *time = sw_time_format ((int) dose->due_minute);
  g_autofree char *medicine = medicine_words (dose);
  g_autofree char *tablets = sw_tablets_words (dose->strength_ug, dose->halves, dose->volume_nl, dose->dose_ug);
  g_autofree char *told = sw_dose_told_words (&c, dose);

  self->dose = dose->dose;
  self->seen = event != NULL ? event->fact.id : 0;
  self->may_tell = use == SW_DOSE_ROW_TELL && may_be_told (standing) && sw_act_allowed (SW_ACT_RECORD_DOSE, roles);
  gtk_label_set_text (self->time, time);
  gtk_label_set_text (self->medicine, medicine);
  gtk_label_set_text (self->tablets, tablets);
  gtk_label_set_text (self->standing, told);
  sw_dose_shape_set (self->shape, sw_dose_mark (standing));
  gtk_widget_set_visible (self->stop, use == SW_DOSE_ROW_TELL && !sw_dose_is_confirmed (standing)
                                          && standing != SW_STANDING_STOPPED
                                          && sw_act_allowed (SW_ACT_STOP_DOSE, roles));
  show_buttons (self);
  name_all (self, dose);
}

gint64
sw_dose_row_get_dose (SwDoseRow *self)
{
  return self->dose;
}

gboolean
sw_dose_row_focus_telling (SwDoseRow *self)
{
  return self->seen == 0 && gtk_widget_get_visible (self->telling) && gtk_widget_grab_focus (self->tell[TELL_GIVEN]);
}

gboolean
sw_dose_row_has_unsaved (SwDoseRow *self)
{
  return gtk_widget_get_visible (self->late) && sw_quantity_entry_is_edited (self->late_at);
}
