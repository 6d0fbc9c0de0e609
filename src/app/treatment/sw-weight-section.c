/* sw-weight-section.c: today's weight
 *
 *   weight today [ 24.6 ] kg  on scale [ 2 ]  Tomas, 09:12  [Weigh Again] [Take Back]      last: 24.9 kg, 12 days ago
 *
 * Enter records it as an act of its own and moves on. Of a weight on record, the same cell corrects it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-weight-section-private.h"

#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-quantity.h"
#include "sw-weight-dialog.h"

#include <glib/gi18n-lib.h>

struct _SwWeightSection
{
  SwTreatmentSection parent_instance;

  /* children */
  SwQuantityEntry *weight;
  GtkWidget *scale;
  GtkWidget *state; /* who and when, or that it is not recorded */
  GtkWidget *retry;
  GtkWidget *again;
  GtkWidget *back;
  GtkWidget *last;
  SwFindingView *answer;

  gint64 row;        /* today's weight on record; 0: none, or a new one is being taken */
  char *sent;        /* the text on its way; NULL: none */
  guint failed : 1;
  guint taking_again : 1; /* a second weighing, no correction */
  guint sealed : 1;       /* released or injected: no other weight of that day */
};

G_DEFINE_FINAL_TYPE (SwWeightSection, sw_weight_section, SW_TYPE_TREATMENT_SECTION)

/* The newest weight of a day; before: the newest of an earlier day. */
static const SwWeight *
weight_of (const SwDossier *dossier, SwDay day, gboolean before)
{
  const SwWeight *weight, *newest = NULL;

  for (guint i = 0; (weight = sw_facts_next (&dossier->facts, SW_FACT_WEIGHT, &i)) != NULL;)
    if (before ? weight->day < day && (newest == NULL || weight->day >= newest->day) : weight->day == day)
      newest = weight;
  return newest;
}

static const SwWeight *
bound_weight (SwWeightSection *self, const SwPageContext *context)
{
  const SwWeight *weight = sw_facts_by_id (&context->dossier->facts, SW_FACT_WEIGHT, self->row);

  return weight != NULL && sw_fact_is_current (weight) ? weight : NULL;
}

static void
set_state (SwWeightSection *self, const char *words, const char *css)
{
  gtk_label_set_text (GTK_LABEL (self->state), words);
  gtk_widget_remove_css_class (self->state, "not-recorded");
  gtk_widget_remove_css_class (self->state, "not-saved");
  if (css != NULL)
    gtk_widget_add_css_class (self->state, css);
}

static gboolean
is_edited (SwWeightSection *self)
{
  return sw_quantity_entry_is_edited (self->weight) && sw_quantity_entry_get_text (self->weight)[0] != '\0';
}

static void
show_state (SwWeightSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  const SwWeight *weight = context != NULL ? bound_weight (self, context) : NULL;
  g_autofree char *by = NULL;

  if (self->failed)
    set_state (self, _("not saved"), "not-saved");
  else if (self->sent != NULL)
    set_state (self, _("recording …"), "not-recorded");
  else if (is_edited (self))
    set_state (self, weight != NULL ? _("correction not recorded") : _("not recorded"), "not-recorded");
  else if (weight != NULL)
    {
      by = sw_treatment_by (context, weight->fact.person, (SwMoment){ weight->day, (int) weight->minute }, weight->day);
      set_state (self, by, NULL);
    }
  else
    set_state (self, "", NULL);
  gtk_widget_set_visible (self->retry, self->failed);
  gtk_widget_set_visible (self->again, weight != NULL && self->sent == NULL && !self->sealed);
  gtk_widget_set_visible (self->back, weight != NULL && self->sent == NULL);
}

static void
show_last (SwWeightSection *self, const SwPageContext *context, SwDay today)
{
  const SwWeight *last = weight_of (context->dossier, today, TRUE);
  g_autofree char *kg = last != NULL ? sw_mass_format (last->grams) : NULL;
  int days = last != NULL ? (int) (today - last->day) : 0;
  g_autofree char *words = NULL;

  if (last != NULL)
    words = g_strdup_printf (ngettext ("last: %s kg, %d day ago", "last: %s kg, %d days ago", (gulong) days), kg, days);
  gtk_label_set_text (GTK_LABEL (self->last), words != NULL ? words : _("never weighed before"));
}

static void
move_on (SwWeightSection *self)
{
  GtkWidget *next = sw_step_page_first_empty_cell (sw_treatment_section_page (SW_TREATMENT_SECTION (self)));

  if (next != NULL)
    gtk_widget_grab_focus (next);
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwWeightSection *self = SW_WEIGHT_SECTION (owner);
  g_autofree char *sent = g_steal_pointer (&self->sent);
  gint64 grams;

  self->failed = reply == NULL || !reply->done;
  if (!self->failed)
    {
      self->taking_again = FALSE;
      self->row = sw_reply_id (reply, SW_FACT_WEIGHT);
      if (g_strcmp0 (sent, sw_quantity_entry_get_text (self->weight)) == 0
          && sw_quantity_entry_peek (self->weight, &grams, NULL))
        sw_quantity_entry_set_value (self->weight, grams);
    }
  show_state (self);
}

static SwWeight *
weight_row (SwWeightSection *self, const SwPageContext *context, gint64 grams)
{
  const SwWeight *old = bound_weight (self, context);
  SwWeight *weight = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_WEIGHT, SwWeight);
  SwMoment now = sw_page_context_now (context);

  if (old == NULL)
    {
      weight->day = now.day;
      weight->minute = now.minute;
    }
  weight->grams = grams;
  g_free (weight->typed);
  weight->typed = g_strdup (sw_quantity_entry_get_text (self->weight));
  g_free (weight->scale);
  weight->scale = sw_field_dup_text (self->scale);

  return weight;
}

static gboolean
scale_changed (SwWeightSection *self, const SwWeight *weight)
{
  g_autofree char *scale = sw_field_dup_text (self->scale);

  return weight != NULL && g_strcmp0 (scale, weight->scale) != 0;
}

static void
record (SwWeightSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwPageContext *context = sw_treatment_section_context (section);
  const SwWeight *old = bound_weight (self, context);
  SwRequest *request;
  gint64 grams;

  if (self->sent != NULL || !sw_quantity_entry_take (self->weight, &grams)
      || (old != NULL && grams == old->grams && !scale_changed (self, old)))
    return;
  request = sw_treatment_section_request (section, SW_ACT_WEIGH);
  sw_request_add (request, weight_row (self, context, grams));
  self->sent = g_strdup (sw_quantity_entry_get_text (self->weight));
  self->failed = FALSE;
  show_state (self);
  if (old != NULL)
    sw_treatment_section_correct (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
  else
    sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
}

static void
accepted_cb (SwQuantityEntry *entry, gint64 value, SwWeightSection *self)
{
  record (self);
  move_on (self);
}

static void
scale_activate_cb (GtkEntry *entry, SwWeightSection *self)
{
  if (sw_quantity_entry_get_text (self->weight)[0] != '\0')
    record (self);
  move_on (self);
}

static void
changed_cb (SwQuantityEntry *entry, SwWeightSection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  g_autofree char *question = NULL;
  gint64 grams;

  self->failed = FALSE;
  if (context != NULL && sw_quantity_entry_peek (entry, &grams, NULL))
    {
      question = sw_weight_question (context->dossier, grams, sw_page_context_now (context).day);
      sw_quantity_entry_set_question (entry, question);
    }
  show_state (self);
}

static void
retry_cb (GtkButton *button, SwWeightSection *self)
{
  record (self);
}

static void
again_cb (GtkButton *button, SwWeightSection *self)
{
  self->row = 0;
  self->taking_again = TRUE;
  sw_quantity_entry_set_value (self->weight, SW_UNKNOWN);
  show_state (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->weight));
}

/* A second weighing that was not taken after all. */
static void
left_cb (SwQuantityEntry *entry, SwWeightSection *self)
{
  SwStepPage *page = sw_treatment_section_page (SW_TREATMENT_SECTION (self));

  if (!self->taking_again || sw_quantity_entry_get_text (entry)[0] != '\0' || page == NULL)
    return;
  self->taking_again = FALSE;
  sw_step_page_invalidate (page, SW_CHANGED_FACTS);
}

static void
taken_back_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwWeightSection *self = SW_WEIGHT_SECTION (owner);

  if (reply == NULL || !reply->done)
    return;
  self->row = 0;
  sw_quantity_entry_set_value (self->weight, SW_UNKNOWN);
  show_state (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->weight));
}

static void
back_cb (GtkButton *button, SwWeightSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwWeight *weight = bound_weight (self, sw_treatment_section_context (section));
  SwRequest *request;

  if (weight == NULL)
    return;
  request = sw_treatment_section_request (section, SW_ACT_WEIGH);
  sw_request_add (request, sw_fact_withdrawal (weight));
  sw_treatment_section_correct (section, GTK_WIDGET (self), request, self->answer, taken_back_cb, NULL);
}

static void
start_anew (SwWeightSection *self)
{
  self->row = 0;
  self->failed = FALSE;
  self->taking_again = FALSE;
  g_clear_pointer (&self->sent, g_free);
  sw_quantity_entry_set_value (self->weight, SW_UNKNOWN);
  gtk_editable_set_text (GTK_EDITABLE (self->scale), "");
  sw_finding_view_clear (self->answer);
}

/* The scale used last is most likely used again. */
static void
offer_scale (SwWeightSection *self, const SwDossier *dossier, const SwWeight *today)
{
  const SwWeight *last = today != NULL ? today : sw_facts_last (&dossier->facts, SW_FACT_WEIGHT);
  g_autofree char *typed = sw_field_dup_text (self->scale);

  if (typed == NULL && last != NULL && last->scale != NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->scale), last->scale);
}

static void
sw_weight_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwWeightSection *self = SW_WEIGHT_SECTION (section);
  SwDay today = sw_treatment_case (context).now.day;
  const SwWeight *weight = weight_of (context->dossier, today, FALSE);

  if (changes & (SW_CHANGED_PATIENT | SW_CHANGED_COURSE))
    start_anew (self);
  self->sealed = sw_treatment_release (context) != NULL;
  if (weight != NULL && !self->taking_again && self->sent == NULL && !is_edited (self))
    {
      self->row = weight->fact.id;
      sw_quantity_entry_offer_value (self->weight, weight->grams);
    }
  else if (bound_weight (self, context) == NULL)
    self->row = 0;
  offer_scale (self, context->dossier, weight);
  show_last (self, context, today);
  show_state (self);
}

static gboolean
sw_weight_section_has_unsaved (SwTreatmentSection *section)
{
  return is_edited (SW_WEIGHT_SECTION (section));
}

static GtkWidget *
sw_weight_section_first_empty_cell (SwTreatmentSection *section)
{
  SwWeightSection *self = SW_WEIGHT_SECTION (section);

  return sw_quantity_entry_get_text (self->weight)[0] == '\0' ? GTK_WIDGET (self->weight) : NULL;
}

static GtkWidget *
sw_weight_section_cure_of (SwTreatmentSection *section, const SwFinding *finding)
{
  SwWeightSection *self = SW_WEIGHT_SECTION (section);

  if (finding->code == SW_FINDING_WEIGH_AGAIN && self->row != 0)
    return self->again;
  return finding->code == SW_FINDING_NO_WEIGHT_TODAY ? GTK_WIDGET (self->weight) : NULL;
}

static void
sw_weight_section_finalize (GObject *object)
{
  g_free (SW_WEIGHT_SECTION (object)->sent);
  G_OBJECT_CLASS (sw_weight_section_parent_class)->finalize (object);
}

static void
sw_weight_section_class_init (SwWeightSectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_weight_section_finalize;
  section_class->update = sw_weight_section_update;
  section_class->has_unsaved = sw_weight_section_has_unsaved;
  section_class->first_empty_cell = sw_weight_section_first_empty_cell;
  section_class->cure_of = sw_weight_section_cure_of;
}

static GtkWidget *
label_of (const char *text, GtkWidget *field)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (text);

  gtk_label_set_mnemonic_widget (GTK_LABEL (label), field);
  gtk_widget_add_css_class (label, "form-label");
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);

  return label;
}

static GtkWidget *
quiet_button (const char *label, GCallback clicked, SwWeightSection *self)
{
  GtkWidget *button = sw_button_new (label);

  gtk_widget_add_css_class (button, "flat");
  g_signal_connect (button, "clicked", clicked, self);

  return button;
}

static void
sw_weight_section_init (SwWeightSection *self)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->weight = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_MASS, _("weight today")));
  self->scale = sw_text_field_new (4);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->scale), 6);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scale), GTK_ACCESSIBLE_PROPERTY_LABEL, _("on scale"), -1);
  gtk_widget_set_valign (self->scale, GTK_ALIGN_START);
  self->state = gtk_label_new (NULL);
  self->retry = quiet_button (_("Retry the Weight"), G_CALLBACK (retry_cb), self);
  self->again = quiet_button (_("Weigh Again"), G_CALLBACK (again_cb), self);
  self->back = quiet_button (_("Take Back the Weight"), G_CALLBACK (back_cb), self);
  self->last = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->last, "quiet");
  gtk_widget_set_hexpand (self->last, TRUE);
  gtk_widget_set_halign (self->last, GTK_ALIGN_END);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (row), label_of (_("weight _today"), GTK_WIDGET (self->weight)));
  gtk_box_append (GTK_BOX (row), GTK_WIDGET (self->weight));
  gtk_box_append (GTK_BOX (row), label_of (_("on _scale"), self->scale));
  gtk_box_append (GTK_BOX (row), self->scale);
  gtk_box_append (GTK_BOX (row), self->state);
  gtk_box_append (GTK_BOX (row), self->retry);
  gtk_box_append (GTK_BOX (row), self->again);
  gtk_box_append (GTK_BOX (row), self->back);
  gtk_box_append (GTK_BOX (row), self->last);
  sw_treatment_section_append (SW_TREATMENT_SECTION (self), row);
  sw_treatment_section_append (SW_TREATMENT_SECTION (self), GTK_WIDGET (self->answer));
  g_signal_connect (self->weight, "accepted", G_CALLBACK (accepted_cb), self);
  g_signal_connect (self->weight, "left", G_CALLBACK (left_cb), self);
  g_signal_connect (self->weight, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect (self->scale, "activate", G_CALLBACK (scale_activate_cb), self);
  show_state (self);
}
