/* sw-practice-view.c: the practice: people, clinical settings, documents
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-practice-view.h"

#include "sw-documents-page.h"
#include "sw-people-page.h"
#include "sw-settings-page.h"

struct _SwPracticeView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *box;
  GtkStack *sections;

  /* owned */
  SwRecord *record;
  GSimpleActionGroup *actions;

  gint64 person;
};

G_DEFINE_FINAL_TYPE (SwPracticeView, sw_practice_view, GTK_TYPE_WIDGET)

/* The sections; each is made when it is first looked at, so that the window opens without them. */
static const struct
{
  const char *name;
  GType (*type) (void);
} sections[] = {
  { "people", sw_people_page_get_type },
  { "settings", sw_settings_page_get_type },
  { "documents", sw_documents_page_get_type },
};

static void
show (SwPracticeView *self)
{
  GtkWidget *people = gtk_stack_get_child_by_name (self->sections, "people");
  GtkWidget *settings = gtk_stack_get_child_by_name (self->sections, "settings");
  GtkWidget *documents = gtk_stack_get_child_by_name (self->sections, "documents");

  if (self->record == NULL || self->person == 0)
    return;
  if (people != NULL)
    sw_people_page_show (SW_PEOPLE_PAGE (people), self->record, self->person);
  if (settings != NULL)
    sw_settings_page_show (SW_SETTINGS_PAGE (settings), self->record, self->person);
  if (documents != NULL)
    sw_documents_page_show (SW_DOCUMENTS_PAGE (documents), self->record, self->person);
}

static void
make_section (SwPracticeView *self, const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    if (g_str_equal (sections[i].name, name) && gtk_stack_get_child_by_name (self->sections, name) == NULL)
      {
        gtk_stack_add_named (self->sections, g_object_new (sections[i].type (), NULL), name);
        show (self);
      }
}

static void
sw_practice_view_map (GtkWidget *widget)
{
  SwPracticeView *self = SW_PRACTICE_VIEW (widget);

  if (gtk_stack_get_visible_child (self->sections) == NULL)
    make_section (self, sections[0].name);
  GTK_WIDGET_CLASS (sw_practice_view_parent_class)->map (widget);
}

static void
practice_changed_cb (SwRecord *record, SwPracticeView *self)
{
  show (self);
}

static void
sw_practice_view_dispose (GObject *object)
{
  SwPracticeView *self = SW_PRACTICE_VIEW (object);

  g_clear_object (&self->record);
  g_clear_object (&self->actions);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_practice_view_parent_class)->dispose (object);
}

static void
sw_practice_view_class_init (SwPracticeViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_practice_view_dispose;
  widget_class->map = sw_practice_view_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-practice-view.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPracticeView, box);
  gtk_widget_class_bind_template_child (widget_class, SwPracticeView, sections);
}

static void
section_action (GSimpleAction *action, GVariant *section, gpointer data)
{
  make_section (data, g_variant_get_string (section, NULL));
  gtk_stack_set_visible_child_name (SW_PRACTICE_VIEW (data)->sections, g_variant_get_string (section, NULL));
  g_simple_action_set_state (action, section);
}

static void
sw_practice_view_init (SwPracticeView *self)
{
  static const GActionEntry entries[] = { { "section", section_action, "s", "'people'" } };

  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "practice", G_ACTION_GROUP (self->actions));
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_practice_view_set_record (SwPracticeView *self, SwRecord *record)
{
  g_set_object (&self->record, record);
  g_signal_connect_object (record, "practice-changed", G_CALLBACK (practice_changed_cb), self, 0);
  show (self);
}

void
sw_practice_view_set_person (SwPracticeView *self, gint64 person)
{
  self->person = person;
  show (self);
}

void
sw_practice_view_show_section (SwPracticeView *self, const char *section)
{
  g_action_group_activate_action (G_ACTION_GROUP (self->actions), "section", g_variant_new_string (section));
}
