/* sw-second-person.c: who read aloud
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-second-person-private.h"

#include "sw-form.h"
#include "sw-people-choice.h"

#include <glib/gi18n-lib.h>

struct _SwSecondPerson
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *words;
  SwPeopleChoice *person;
  GtkWidget *alone;
};

G_DEFINE_FINAL_TYPE (SwSecondPerson, sw_second_person, GTK_TYPE_WIDGET)

static void
alone_cb (GtkCheckButton *alone, SwSecondPerson *self)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self->person), !gtk_check_button_get_active (alone));
}

static gboolean
sw_second_person_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_SECOND_PERSON (widget)->person));
}

static void
sw_second_person_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_second_person_parent_class)->dispose (object);
}

static void
sw_second_person_class_init (SwSecondPersonClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_second_person_dispose;
  widget_class->grab_focus = sw_second_person_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "secondperson");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_second_person_init (SwSecondPerson *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), 12);
}

GtkWidget *
sw_second_person_new (const char *name, const char *alone)
{
  SwSecondPerson *self = g_object_new (SW_TYPE_SECOND_PERSON, NULL);

  self->words = gtk_label_new (name);
  gtk_widget_add_css_class (self->words, "form-label");
  self->person = SW_PEOPLE_CHOICE (sw_people_choice_new (name, _("choose …")));
  self->alone = sw_check_new (alone);
  gtk_widget_set_parent (self->words, GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->person), GTK_WIDGET (self));
  gtk_widget_set_parent (self->alone, GTK_WIDGET (self));
  g_signal_connect (self->alone, "toggled", G_CALLBACK (alone_cb), self);

  return GTK_WIDGET (self);
}

void
sw_second_person_update (SwSecondPerson *self, const SwPractice *practice)
{
  sw_people_choice_update (self->person, practice);
}

void
sw_second_person_clear (SwSecondPerson *self)
{
  sw_people_choice_set (self->person, 0);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->alone), FALSE);
}

SwReadAloud *
sw_second_person_make (SwSecondPerson *self, const SwPageContext *context, SwReadAloudStage stage)
{
  gboolean alone = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->alone));
  gint64 second = alone ? context->person : sw_people_choice_get (self->person);
  SwMoment now = sw_page_context_now (context);
  SwReadAloud *row;

  if (second == 0)
    return NULL;
  row = sw_new (SW_FACT_READ_ALOUD, SwReadAloud);
  row->course = context->course;
  row->stage = stage;
  row->second = second;
  row->day = now.day;
  row->minute = now.minute;
  row->alone = alone;

  return row;
}
