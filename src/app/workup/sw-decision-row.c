/* sw-decision-row.c: one finding and the vet's reason
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-decision-row.h"

#include "sw-finding-view.h"
#include "sw-form.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>

struct _SwDecisionRow
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *top;
  GtkWidget *decision; /* while the vet decides */

  GtkWidget *words; /* of sw_finding_row_new */
  GtkWidget *go;
  GtkWidget *given; /* the reason on record, and who gave it */
  GtkWidget *entry;
  GtkWidget *give;

  SwFinding *finding; /* owned */
  char *recorded;     /* the reason on record, or NULL */
};

G_DEFINE_FINAL_TYPE (SwDecisionRow, sw_decision_row, GTK_TYPE_WIDGET)

enum { GO, REASON, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
go_cb (SwDecisionRow *self)
{
  g_signal_emit (self, signals[GO], 0);
}

static void
give_cb (SwDecisionRow *self)
{
  g_autofree char *reason = sw_field_dup_text (self->entry);

  if (reason == NULL)
    gtk_widget_grab_focus (self->entry);
  else
    g_signal_emit (self, signals[REASON], 0, reason);
}

/* Once a reason stands, the same field writes another in its place. */
static void
edited_cb (SwDecisionRow *self)
{
  gtk_widget_set_visible (self->give, self->recorded == NULL || sw_decision_row_has_unsaved (self));
}

static GtkWidget *
decision_new (SwDecisionRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new (_("reason"));

  self->given = sw_quiet_new (NULL);
  self->entry = sw_text_field_new (20);
  self->give = sw_named_button_new (_("Give the Reason"), "");
  gtk_widget_add_css_class (label, "form-label");
  gtk_widget_set_hexpand (self->entry, TRUE);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), self->entry);
  gtk_box_append (GTK_BOX (line), self->give);
  gtk_box_append (GTK_BOX (box), line);
  gtk_box_append (GTK_BOX (box), self->given);
  gtk_widget_add_css_class (box, "decision");
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->give, "clicked", G_CALLBACK (give_cb), self, G_CONNECT_SWAPPED);

  return box;
}

static void
sw_decision_row_dispose (GObject *object)
{
  SwDecisionRow *self = SW_DECISION_ROW (object);

  g_clear_pointer (&self->top, gtk_widget_unparent);
  g_clear_pointer (&self->decision, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_decision_row_parent_class)->dispose (object);
}

static void
sw_decision_row_finalize (GObject *object)
{
  SwDecisionRow *self = SW_DECISION_ROW (object);

  sw_finding_free (self->finding);
  g_free (self->recorded);
  G_OBJECT_CLASS (sw_decision_row_parent_class)->finalize (object);
}

static void
sw_decision_row_class_init (SwDecisionRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_decision_row_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_decision_row_finalize;
  signals[GO] = g_signal_new ("go", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REASON] = g_signal_new ("reason", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                  G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "decisionrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_decision_row_init (SwDecisionRow *self)
{
  GtkBoxLayout *layout = GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self)));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (layout, 6);
  self->top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->go = sw_named_button_new ("", "");
  gtk_widget_set_valign (self->go, GTK_ALIGN_START);
  gtk_widget_add_css_class (self->go, "chip");
  gtk_box_append (GTK_BOX (self->top), self->go);
  self->decision = decision_new (self);
  gtk_widget_set_parent (self->top, GTK_WIDGET (self));
  gtk_widget_set_parent (self->decision, GTK_WIDGET (self));
  g_signal_connect_object (self->go, "clicked", G_CALLBACK (go_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
sw_decision_row_new (void)
{
  return g_object_new (SW_TYPE_DECISION_ROW, NULL);
}

/* Many rows have the same button: its name says what it is for. */
static void
name_fields (SwDecisionRow *self, const char *act)
{
  g_autofree char *sentence = sw_finding_sentence (self->finding);
  g_autofree char *go = g_strdup_printf ("%s: %s", act != NULL ? act : "", sentence);
  g_autofree char *reason = g_strdup_printf (_("reason, for: %s"), sentence);
  g_autofree char *give = g_strdup_printf (_("Give the Reason, for: %s"), sentence);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self->go), GTK_ACCESSIBLE_PROPERTY_LABEL, go, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, reason, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->give), GTK_ACCESSIBLE_PROPERTY_LABEL, give, -1);
}

static void
show_words (SwDecisionRow *self, const SwWorkUp *work_up)
{
  SwPlace place = sw_place_of_finding (&work_up->c, self->finding);
  const char *act = sw_place_act (place.kind, self->finding->severity);

  if (self->words != NULL)
    gtk_box_remove (GTK_BOX (self->top), self->words);
  self->words = sw_finding_row_new (self->finding);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_box_prepend (GTK_BOX (self->top), self->words);
  gtk_widget_set_visible (self->go, act != NULL && self->finding->severity != SW_MEETS);
  gtk_label_set_text (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->go))), act != NULL ? act : "");
  name_fields (self, act);
}

static void
show_reason (SwDecisionRow *self, const SwWorkUp *work_up)
{
  gboolean unsaved = sw_decision_row_has_unsaved (self);
  const SwReason *reason = sw_finding_reason (&work_up->c, self->finding);
  const char *who = reason != NULL ? sw_practice_person_name (work_up->c.practice, reason->fact.person) : NULL;
  g_autofree char *given = who != NULL ? g_strdup_printf (_("Given by %s; another reason takes its place."), who) : NULL;

  g_free (self->recorded);
  self->recorded = reason != NULL ? g_strdup (reason->reason) : NULL;
  gtk_label_set_text (GTK_LABEL (self->given), given != NULL ? given : "");
  gtk_widget_set_visible (self->given, given != NULL);
  if (!unsaved)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), self->recorded != NULL ? self->recorded : "");
  edited_cb (self);
}

void
sw_decision_row_update (SwDecisionRow *self, const SwWorkUp *work_up, const SwFinding *finding)
{
  if (self->finding != finding)
    {
      sw_finding_free (self->finding);
      self->finding = sw_finding_copy (finding);
    }
  show_words (self, work_up);
  gtk_widget_set_visible (self->decision, finding->severity == SW_VET_DECIDES);
  show_reason (self, work_up);
}

const SwFinding *
sw_decision_row_get_finding (SwDecisionRow *self)
{
  return self->finding;
}

gboolean
sw_decision_row_has_unsaved (SwDecisionRow *self)
{
  g_autofree char *typed = sw_field_dup_text (self->entry);

  return typed != NULL && g_strcmp0 (typed, self->recorded) != 0;
}

void
sw_decision_row_forget (SwDecisionRow *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->entry), self->recorded != NULL ? self->recorded : "");
}

GtkWidget *
sw_decision_row_get_entry (SwDecisionRow *self)
{
  return gtk_widget_get_visible (self->decision) ? self->entry : NULL;
}

GtkWidget *
sw_decision_row_get_give (SwDecisionRow *self)
{
  return gtk_widget_get_visible (self->decision) ? self->give : NULL;
}

GtkWidget *
sw_decision_row_get_go (SwDecisionRow *self)
{
  return gtk_widget_get_visible (self->go) ? self->go : NULL;
}
