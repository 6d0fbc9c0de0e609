/* sw-people-page.c: who works here, and in which roles
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-people-page.h"

#include "sw-form.h"
#include "sw-perform.h"
#include "sw-setting-field.h"

#include <glib/gi18n-lib.h>

#define N_ROLES 3
#define N_SETTINGS 3

static const SwRole all_roles[N_ROLES] = { SW_ROLE_TECHNICIAN, SW_ROLE_VET, SW_ROLE_MANAGER };

/* One person's row, and the empty row of a new one. */
typedef struct
{
  /* borrowed: children of the row */
  GtkWidget *name;
  GtkWidget *roles[N_ROLES];
  GtkWidget *active;
  GtkWidget *save;
  GtkWidget *box;

  gint64 row; /* SwPersonDetails that is corrected; 0: a new person */
} PersonRow;

struct _SwPeoplePage
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *scrolled;
  GtkWidget *list;
  SwFindingView *answer;
  SwSettingField *settings[N_SETTINGS];

  /* owned */
  SwRecord *record;

  gint64 person;
};

G_DEFINE_FINAL_TYPE (SwPeoplePage, sw_people_page, GTK_TYPE_WIDGET)

static gint64
chosen_roles (const PersonRow *row)
{
  gint64 roles = 0;

  for (int i = 0; i < N_ROLES; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (row->roles[i])))
      roles |= all_roles[i];
  return roles;
}

static const SwPersonDetails *
old_details (SwPeoplePage *self, const PersonRow *row)
{
  return row->row != 0 ? sw_facts_by_id (&sw_record_get_practice (self->record)->facts, SW_FACT_PERSON_DETAILS,
                                         row->row) : NULL;
}

static gboolean
is_edited (SwPeoplePage *self, const PersonRow *row)
{
  const SwPersonDetails *old = old_details (self, row);
  g_autofree char *name = sw_field_dup_text (row->name);

  if (old == NULL)
    return name != NULL;
  return g_strcmp0 (name, old->name) != 0 || chosen_roles (row) != old->roles
         || gtk_check_button_get_active (GTK_CHECK_BUTTON (row->active)) != (old->active == 1);
}

static void
edited_cb (GtkWidget *widget, GParamSpec *pspec, GtkWidget *box)
{
  PersonRow *row = g_object_get_data (G_OBJECT (box), "sw-person-row");
  SwPeoplePage *self = SW_PEOPLE_PAGE (gtk_widget_get_ancestor (box, SW_TYPE_PEOPLE_PAGE));

  if (self != NULL)
    gtk_widget_set_sensitive (row->save, is_edited (self, row));
}

static void
replied_cb (GtkWidget *page, const SwReply *reply, gpointer box)
{
  PersonRow *row = g_object_get_data (G_OBJECT (box), "sw-person-row");

  if (reply != NULL && reply->done && row->row == 0)
    gtk_editable_set_text (GTK_EDITABLE (row->name), "");
}

static void
save_cb (GtkButton *button, GtkWidget *box)
{
  PersonRow *row = g_object_get_data (G_OBJECT (box), "sw-person-row");
  SwPeoplePage *self = SW_PEOPLE_PAGE (gtk_widget_get_ancestor (box, SW_TYPE_PEOPLE_PAGE));
  SwRequest *request = sw_request_new (SW_ACT_MANAGE_PEOPLE, self->person, 0);
  const SwPersonDetails *old = old_details (self, row);
  SwPersonDetails *details;

  if (old != NULL)
    details = sw_fact_correction (old);
  else
    {
      details = sw_new (SW_FACT_PERSON_DETAILS, SwPersonDetails);
      details->person = sw_request_add (request, sw_new (SW_FACT_PERSON, SwPerson));
    }
  g_free (details->name);
  details->name = sw_field_dup_text (row->name);
  details->roles = chosen_roles (row);
  details->active = gtk_check_button_get_active (GTK_CHECK_BUTTON (row->active));
  sw_request_add (request, details);
  sw_perform (GTK_WIDGET (self), self->record, request, self->answer, replied_cb, box);
}

static GtkWidget *
add_check (GtkWidget *box, const char *words, const char *person, gboolean active)
{
  GtkWidget *check = sw_check_new (words);
  /* Translators: name of a tick box to a screen reader: "vet: Ines" */
  g_autofree char *name = g_strdup_printf (_("%s: %s"), words, person);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), active);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (check, "notify::active", G_CALLBACK (edited_cb), box);
  gtk_box_append (GTK_BOX (box), check);

  return check;
}

static GtkWidget *
row_new (const SwPersonDetails *details)
{
  PersonRow *row = g_new0 (PersonRow, 1);
  const char *name = details != NULL ? details->name : _("new person");
  g_autofree char *entry_name = g_strdup_printf (_("name: %s"), name);
  g_autofree char *save_name = g_strdup_printf (details != NULL ? _("Save %s") : _("Add the %s"), name);

  row->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  row->row = details != NULL ? details->fact.id : 0;
  row->name = sw_text_field_new (24);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->name), GTK_ACCESSIBLE_PROPERTY_LABEL, entry_name, -1);
  gtk_editable_set_text (GTK_EDITABLE (row->name), details != NULL ? details->name : "");
  if (details == NULL)
    gtk_entry_set_placeholder_text (GTK_ENTRY (row->name), _("Name of a new person"));
  gtk_box_append (GTK_BOX (row->box), row->name);
  for (int i = 0; i < N_ROLES; i++)
    row->roles[i] = add_check (row->box, sw_role_name (all_roles[i]), name, details != NULL
                               && (details->roles & all_roles[i]));
  row->active = add_check (row->box, _("works here"), name, details == NULL || details->active);
  row->save = sw_named_button_new (details != NULL ? _("Save") : _("Add"), save_name);
  gtk_widget_set_sensitive (row->save, FALSE);
  gtk_box_append (GTK_BOX (row->box), row->save);
  g_object_set_data_full (G_OBJECT (row->box), "sw-person-row", row, g_free);
  g_signal_connect (row->name, "notify::text", G_CALLBACK (edited_cb), row->box);
  g_signal_connect (row->save, "clicked", G_CALLBACK (save_cb), row->box);

  return row->box;
}

static char *
parse_any (const char *typed, gint64 limit, GError **error)
{
  return g_strstrip (g_strdup (typed));
}

static char *
format_any (const char *kept)
{
  return g_strdup (kept);
}

static void
settings_replied_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  for (int i = 0; reply != NULL && reply->done && i < N_SETTINGS; i++)
    sw_setting_field_taken (SW_PEOPLE_PAGE (page)->settings[i]);
}

static void
save_settings_cb (GtkButton *button, SwPeoplePage *self)
{
  g_autoptr (SwRequest) request = sw_request_new (SW_ACT_MANAGE_PEOPLE, self->person, 0);

  for (int i = 0; i < N_SETTINGS; i++)
    if (!sw_setting_field_add (self->settings[i], sw_record_get_practice (self->record), request))
      return;
  if (request->facts->len > 0)
    sw_perform (GTK_WIDGET (self), self->record, g_steal_pointer (&request), self->answer, settings_replied_cb, NULL);
}

static GtkWidget *
settings_form_new (SwPeoplePage *self)
{
  static const struct
  {
    const char *key;
    const char *label;
    const char *name;
  } settings[N_SETTINGS] = {
    { "name", N_("_name"), N_("name of the practice") },
    { "address", N_("_address"), N_("address of the practice") },
    { "telephone", N_("_telephone"), N_("telephone of the practice") },
  };
  GtkWidget *form = sw_form_new ();
  GtkWidget *save = sw_button_new (_("_Save the Practice"));

  sw_form_add_heading (GTK_GRID (form), _("The practice"));
  for (int i = 0; i < N_SETTINGS; i++)
    {
      GtkWidget *field = sw_setting_field_new (settings[i].key, _(settings[i].name), "", 0, parse_any, format_any, 40);

      self->settings[i] = SW_SETTING_FIELD (field);
      sw_form_add (GTK_GRID (form), _(settings[i].label), field);
    }
  gtk_widget_set_halign (save, GTK_ALIGN_START);
  sw_form_add (GTK_GRID (form), "", save);
  g_signal_connect (save, "clicked", G_CALLBACK (save_settings_cb), self);

  return form;
}

static void
sw_people_page_dispose (GObject *object)
{
  SwPeoplePage *self = SW_PEOPLE_PAGE (object);

  g_clear_pointer (&self->scrolled, gtk_widget_unparent);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (sw_people_page_parent_class)->dispose (object);
}

static void
sw_people_page_class_init (SwPeoplePageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_people_page_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_people_page_init (SwPeoplePage *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (body), settings_form_new (self));
  gtk_box_append (GTK_BOX (body), sw_heading_new (_("People")));
  gtk_box_append (GTK_BOX (body),
                  sw_quiet_new (_("Who works here and in which roles. What somebody recorded keeps their name after "
                                  "they have left.")));
  gtk_box_append (GTK_BOX (body), self->list);
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  self->scrolled = sw_scrolled_new (body);
  gtk_widget_set_parent (self->scrolled, GTK_WIDGET (self));
}

void
sw_people_page_show (SwPeoplePage *self, SwRecord *record, gint64 person)
{
  const SwPractice *practice = sw_record_get_practice (record);
  const SwPersonDetails *details;
  GtkWidget *child;

  g_set_object (&self->record, record);
  self->person = person;
  for (int i = 0; i < N_SETTINGS; i++)
    sw_setting_field_show (self->settings[i], practice);
  while ((child = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_box_remove (GTK_BOX (self->list), child);
  for (guint i = 0; (details = sw_facts_next (&practice->facts, SW_FACT_PERSON_DETAILS, &i)) != NULL;)
    gtk_box_append (GTK_BOX (self->list), row_new (details));
  gtk_box_append (GTK_BOX (self->list), row_new (NULL));
}
