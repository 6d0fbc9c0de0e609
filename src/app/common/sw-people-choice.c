/* sw-people-choice.c: choose one of the people who work here
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-people-choice.h"

#include "sw-form.h"

struct _SwPeopleChoice
{
  GtkWidget parent_instance;

  GtkWidget *drop_down; /* child */
  GArray *ids;          /* gint64, as in the drop-down; 0 first if nobody may be chosen */
  char *none;
  guint filling : 1;
};

G_DEFINE_FINAL_TYPE (SwPeopleChoice, sw_people_choice, GTK_TYPE_WIDGET)

enum { CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
selected_cb (GtkDropDown *drop_down, GParamSpec *pspec, SwPeopleChoice *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[CHANGED], 0);
}

static gboolean
sw_people_choice_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (SW_PEOPLE_CHOICE (widget)->drop_down);
}

static void
sw_people_choice_dispose (GObject *object)
{
  g_clear_pointer (&SW_PEOPLE_CHOICE (object)->drop_down, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_people_choice_parent_class)->dispose (object);
}

static void
sw_people_choice_finalize (GObject *object)
{
  SwPeopleChoice *self = SW_PEOPLE_CHOICE (object);

  g_array_unref (self->ids);
  g_free (self->none);
  G_OBJECT_CLASS (sw_people_choice_parent_class)->finalize (object);
}

static void
sw_people_choice_class_init (SwPeopleChoiceClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_people_choice_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_people_choice_finalize;
  widget_class->grab_focus = sw_people_choice_grab_focus;
  signals[CHANGED]
      = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "peoplechoice");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_people_choice_init (SwPeopleChoice *self)
{
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->drop_down = gtk_drop_down_new (NULL, NULL);
  gtk_widget_set_parent (self->drop_down, GTK_WIDGET (self));
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_START);
  g_signal_connect (self->drop_down, "notify::selected", G_CALLBACK (selected_cb), self);
}

GtkWidget *
sw_people_choice_new (const char *name, const char *none)
{
  SwPeopleChoice *self = g_object_new (SW_TYPE_PEOPLE_CHOICE, NULL);

  self->none = g_strdup (none);
  sw_name_drop_down (self->drop_down, name);
  return GTK_WIDGET (self);
}

static void
offer (SwPeopleChoice *self, GtkStringList *names, gint64 person, const char *name)
{
  g_array_append_val (self->ids, person);
  gtk_string_list_append (names, name);
}

static void
select_person (SwPeopleChoice *self, gint64 person)
{
  for (guint i = 0; i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == person)
      {
        gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop_down), i);
        return;
      }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->drop_down), 0);
}

void
sw_people_choice_update (SwPeopleChoice *self, const SwPractice *practice)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gint64 chosen = sw_people_choice_get (self);
  const SwPersonDetails *person;

  g_array_set_size (self->ids, 0);
  if (self->none != NULL)
    offer (self, names, 0, self->none);
  for (guint i = 0; (person = sw_facts_next (&practice->facts, SW_FACT_PERSON_DETAILS, &i)) != NULL;)
    if (person->active && (person->roles & (SW_ROLE_TECHNICIAN | SW_ROLE_VET)) != 0)
      offer (self, names, person->person, person->name);
  self->filling = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->drop_down), G_LIST_MODEL (names));
  select_person (self, chosen);
  self->filling = FALSE;
}

void
sw_people_choice_set (SwPeopleChoice *self, gint64 person)
{
  self->filling = TRUE;
  select_person (self, person);
  self->filling = FALSE;
}

gint64
sw_people_choice_get (SwPeopleChoice *self)
{
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->drop_down));

  return selected < self->ids->len ? g_array_index (self->ids, gint64, selected) : 0;
}
