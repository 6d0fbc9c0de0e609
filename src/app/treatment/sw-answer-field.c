/* sw-answer-field.c: one question of the treatment day with its answer
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-answer-field-private.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwAnswerField
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *tick;   /* NULL: a choice */
  GtkWidget *choice; /* NULL: a tick */
  GtkWidget *note;   /* NULL: nothing is told beside the answer */

  const SwQuestion *question;
  gint64 tumour;
  char *kept;      /* the answer on record */
  char *kept_note;
  guint filling : 1;
};

G_DEFINE_FINAL_TYPE (SwAnswerField, sw_answer_field, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

/* Nothing needs to be told beside these answers. */
static gboolean
says_it_all (const char *answer)
{
  static const char *const plain[] = { "none", "no", "stands", "normal", NULL };

  return answer == NULL || g_strv_contains (plain, answer);
}

static void
show_note (SwAnswerField *self)
{
  if (self->note != NULL)
    gtk_widget_set_visible (self->note, !says_it_all (sw_answer_field_get (self, FALSE)));
}

static void
changed (SwAnswerField *self)
{
  show_note (self);
  if (!self->filling)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
chosen_cb (GtkDropDown *choice, GParamSpec *pspec, SwAnswerField *self)
{
  changed (self);
}

static void
toggled_cb (GtkCheckButton *tick, SwAnswerField *self)
{
  changed (self);
}

static void
note_changed_cb (GtkEditable *note, SwAnswerField *self)
{
  changed (self);
}

gboolean
sw_answer_field_is_tick (SwAnswerField *self)
{
  return self->tick != NULL;
}

gboolean
sw_answer_field_is_ticked (SwAnswerField *self)
{
  return self->tick != NULL && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->tick));
}

const SwQuestion *
sw_answer_field_get_question (SwAnswerField *self)
{
  return self->question;
}

gint64
sw_answer_field_get_tumour (SwAnswerField *self)
{
  return self->tumour;
}

const char *
sw_answer_field_get (SwAnswerField *self, gboolean group_asked)
{
  int chosen;

  if (self->tick != NULL)
    return sw_answer_field_is_ticked (self) ? "yes" : group_asked ? "no" : NULL;
  chosen = sw_choice_get (self->choice, TRUE);
  return chosen >= 0 ? self->question->choices[chosen].code : NULL;
}

char *
sw_answer_field_dup_note (SwAnswerField *self)
{
  return self->note != NULL && gtk_widget_get_visible (self->note) ? sw_field_dup_text (self->note) : NULL;
}

gboolean
sw_answer_field_is_edited (SwAnswerField *self, gboolean group_asked)
{
  const char *answer = sw_answer_field_get (self, group_asked || self->kept != NULL);
  g_autofree char *note = sw_answer_field_dup_note (self);

  return answer != NULL && (g_strcmp0 (answer, self->kept) != 0 || g_strcmp0 (note, self->kept_note) != 0);
}

void
sw_answer_field_set (SwAnswerField *self, const SwAnswer *answer)
{
  int chosen = -1;

  self->filling = TRUE;
  g_free (self->kept);
  g_free (self->kept_note);
  self->kept = g_strdup (answer != NULL ? answer->answer : NULL);
  self->kept_note = g_strdup (answer != NULL ? answer->note : NULL);
  for (guint i = 0; answer != NULL && i < self->question->n_choices; i++)
    if (g_str_equal (self->question->choices[i].code, answer->answer))
      chosen = (int) i;
  if (self->tick != NULL)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->tick), g_strcmp0 (self->kept, "yes") == 0);
  else
    sw_choice_set (self->choice, TRUE, chosen);
  if (self->note != NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->note), self->kept_note != NULL ? self->kept_note : "");
  show_note (self);
  self->filling = FALSE;
}

static gboolean
sw_answer_field_grab_focus (GtkWidget *widget)
{
  SwAnswerField *self = SW_ANSWER_FIELD (widget);

  return gtk_widget_grab_focus (self->tick != NULL ? self->tick : self->choice);
}

static void
sw_answer_field_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_answer_field_parent_class)->dispose (object);
}

static void
sw_answer_field_finalize (GObject *object)
{
  SwAnswerField *self = SW_ANSWER_FIELD (object);

  g_free (self->kept);
  g_free (self->kept_note);
  G_OBJECT_CLASS (sw_answer_field_parent_class)->finalize (object);
}

static void
sw_answer_field_class_init (SwAnswerFieldClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_answer_field_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_answer_field_finalize;
  widget_class->grab_focus = sw_answer_field_grab_focus;
  signals[CHANGED]
      = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "answer");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_answer_field_init (SwAnswerField *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
}

/* "surface today, tumour A" */
static char *
name_of (const SwQuestion *question, const char *of)
{
  return of != NULL ? g_strdup_printf (_("%s, tumour %s"), _(question->name), of) : g_strdup (_(question->name));
}

static void
add_tick (SwAnswerField *self, const char *name)
{
  self->tick = sw_check_new (name);
  gtk_widget_set_parent (self->tick, GTK_WIDGET (self));
  g_signal_connect (self->tick, "toggled", G_CALLBACK (toggled_cb), self);
}

static void
add_choice (SwAnswerField *self, const char *name)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < self->question->n_choices; i++)
    g_ptr_array_add (names, (gpointer) _(self->question->choices[i].name));
  g_ptr_array_add (names, NULL);
  self->choice = sw_choice_new (name, _("choose …"), (const char *const *) names->pdata);
  gtk_widget_set_parent (self->choice, GTK_WIDGET (self));
  g_signal_connect (self->choice, "notify::selected", G_CALLBACK (chosen_cb), self);
}

static void
add_note (SwAnswerField *self, const char *name)
{
  g_autofree char *spoken = g_strdup_printf ("%s: %s", name, _(self->question->extra_name));

  self->note = sw_text_field_new (8);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->note), _(self->question->extra_name));
  gtk_widget_set_hexpand (self->note, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->note), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_visible (self->note, FALSE);
  gtk_widget_set_parent (self->note, GTK_WIDGET (self));
  g_signal_connect (self->note, "changed", G_CALLBACK (note_changed_cb), self);
}

GtkWidget *
sw_answer_field_new (const SwQuestion *question, gint64 tumour, const char *of)
{
  SwAnswerField *self = g_object_new (SW_TYPE_ANSWER_FIELD, NULL);
  g_autofree char *name = name_of (question, of);

  self->question = question;
  self->tumour = tumour;
  if (g_str_equal (question->choices[0].code, "yes"))
    add_tick (self, name);
  else
    add_choice (self, name);
  if (question->extra == SW_EXTRA_NOTE)
    add_note (self, name);

  return GTK_WIDGET (self);
}
