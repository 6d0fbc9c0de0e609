/* sw-site-form.c: what one treated site shows at a visit
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-site-form-private.h"

#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-recheck-private.h"
#include "sw-site-readings-private.h"
#include "sw-wound.h"

#include <glib/gi18n-lib.h>

#define WOUND_WIDTH 240

struct _SwSiteForm
{
  GtkBox parent_instance;

  /* children */
  GtkWidget *look; /* first choice: the caliper says it */
  SwSiteReadings *readings;
  GtkWidget *wound;
  GtkWidget *size;
  SwQuantityEntry *length;
  SwQuantityEntry *width;
  GtkWidget *area;

  SwStepPage *page; /* borrowed: it holds this widget */
  char *title;
  gint64 tumour;
  SwDay day;
  gint64 old_wound; /* the row being corrected; 0: none */
  int look_shown;   /* as last set, -1: none */
  int wound_shown;
};

G_DEFINE_FINAL_TYPE (SwSiteForm, sw_site_form, GTK_TYPE_BOX)

/* --- the wound --- */

static void
show_area (SwSiteForm *self)
{
  g_autofree char *mm2 = NULL, *words = NULL;
  gint64 length, width;
  SwRatio area;

  gtk_label_set_text (GTK_LABEL (self->area), "");
  if (!sw_quantity_entry_peek (self->length, &length, NULL) || !sw_quantity_entry_peek (self->width, &width, NULL)
      || !sw_wound_area (length, width, &area))
    return;
  mm2 = sw_ratio_format (area, 0);
  words = g_strdup_printf (_("%s mm2 by the ruler (length × width × π/4)"), mm2);
  gtk_label_set_text (GTK_LABEL (self->area), words);
}

static void
show_size (SwSiteForm *self)
{
  gtk_widget_set_visible (self->size, sw_choice_get (self->wound, TRUE) == SW_WOUND_OPEN);
  show_area (self);
}

static void
accepted_cb (SwQuantityEntry *entry, gint64 value, SwSiteForm *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (entry == self->length ? self->width : self->length));
}

void
sw_site_form_set_wound (SwSiteForm *self, const SwWound *wound)
{
  self->old_wound = wound != NULL ? wound->fact.id : 0;
  self->wound_shown = wound != NULL ? (int) wound->state : -1;
  sw_choice_set (self->wound, TRUE, self->wound_shown);
  sw_quantity_entry_set_value (self->length, wound != NULL ? wound->length : SW_UNKNOWN);
  sw_quantity_entry_set_value (self->width, wound != NULL ? wound->width : SW_UNKNOWN);
  show_size (self);
}

/* Both sides of an open wound, or neither. */
static gboolean
take_size (SwSiteForm *self, gint64 *length, gint64 *width)
{
  SwQuantityEntry *missing;

  *length = *width = SW_UNKNOWN;
  if (sw_choice_get (self->wound, TRUE) != SW_WOUND_OPEN)
    return TRUE;
  if (!sw_quantity_entry_take (self->length, length))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->length));
      return FALSE;
    }
  if (!sw_quantity_entry_take (self->width, width))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->width));
      return FALSE;
    }
  if ((*length == SW_UNKNOWN) == (*width == SW_UNKNOWN))
    return TRUE;
  missing = *length == SW_UNKNOWN ? self->length : self->width;
  sw_quantity_entry_set_error (missing, _("A wound is measured by length and width: fill in both, or neither."));
  gtk_widget_grab_focus (GTK_WIDGET (missing));
  return FALSE;
}

static const SwFacts *
facts_of (SwSiteForm *self)
{
  return &sw_step_page_get_context (self->page)->dossier->facts;
}

static gboolean
add_wound (SwSiteForm *self, SwRequest *request, gint64 visit, SwDay day)
{
  const SwWound *old = sw_facts_by_id (facts_of (self), SW_FACT_WOUND, self->old_wound);
  int state = sw_choice_get (self->wound, TRUE);
  gint64 length, width;
  SwWound *wound;

  if (!take_size (self, &length, &width))
    return FALSE;
  if (old != NULL && state < 0)
    sw_request_add (request, sw_fact_withdrawal (old));
  if (state < 0
      || (old != NULL && old->state == state && old->length == length && old->width == width && old->day == day))
    return TRUE;
  wound = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_WOUND, SwWound);
  if (old == NULL)
    {
      wound->course = sw_step_page_get_context (self->page)->course;
      wound->tumour = self->tumour;
      wound->visit = visit;
    }
  wound->day = day;
  wound->state = state;
  wound->length = length;
  wound->width = width;
  sw_request_add (request, wound);
  return TRUE;
}

/* --- the look --- */

static const SwLook *
look_of (SwSiteForm *self, SwDay day)
{
  return sw_visit_look (sw_step_page_get_context (self->page), self->tumour, day);
}

static void
show_readings (SwSiteForm *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->readings),
                          sw_choice_get (self->look, TRUE) < 0 || sw_site_readings_count (self->readings) > 0
                            || sw_site_readings_has_unsaved (self->readings));
}

/* A look belongs to its day: at another day the old one is taken back. */
static void
add_look (SwSiteForm *self, SwRequest *request, SwDay day)
{
  const SwLook *old = look_of (self, day), *elsewhere = day != self->day ? look_of (self, self->day) : NULL;
  int state = sw_choice_get (self->look, TRUE);
  SwLook *look;

  if (elsewhere != NULL)
    sw_request_add (request, sw_fact_withdrawal (elsewhere));
  if (old != NULL && state < 0)
    sw_request_add (request, sw_fact_withdrawal (old));
  if (state < 0 || (old != NULL && old->state == state))
    return;
  look = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_LOOK, SwLook);
  look->course = sw_step_page_get_context (self->page)->course;
  look->tumour = self->tumour;
  look->day = day;
  look->state = state;
  sw_request_add (request, look);
}

gboolean
sw_site_form_add_rows (SwSiteForm *self, SwRequest *request, gint64 visit, SwDay day)
{
  if (!add_wound (self, request, visit, day))
    return FALSE;
  add_look (self, request, day);
  return TRUE;
}

/* --- showing --- */

void
sw_site_form_show (SwSiteForm *self, SwStepPage *page, SwMoment at, gboolean anew)
{
  gboolean untouched = sw_choice_get (self->look, TRUE) == self->look_shown;
  const SwLook *look;

  self->page = page;
  look = look_of (self, at.day);
  if (anew || at.day != self->day || untouched)
    {
      self->look_shown = look != NULL ? (int) look->state : -1;
      sw_choice_set (self->look, TRUE, self->look_shown);
    }
  self->day = at.day;
  sw_site_readings_show (self->readings, page, at, anew);
  show_readings (self);
}

gboolean
sw_site_form_has_unsaved (SwSiteForm *self)
{
  return sw_choice_get (self->look, TRUE) != self->look_shown || sw_choice_get (self->wound, TRUE) != self->wound_shown
         || sw_quantity_entry_is_edited (self->length) || sw_quantity_entry_is_edited (self->width)
         || sw_site_readings_has_unsaved (self->readings);
}

GtkWidget *
sw_site_form_first_empty (SwSiteForm *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self->readings)) ? sw_site_readings_first_empty (self->readings) : NULL;
}

static void
sw_site_form_finalize (GObject *object)
{
  g_free (SW_SITE_FORM (object)->title);
  G_OBJECT_CLASS (sw_site_form_parent_class)->finalize (object);
}

static void
sw_site_form_class_init (SwSiteFormClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_site_form_finalize;
}

static void
sw_site_form_init (SwSiteForm *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->day = SW_NO_DAY;
  self->look_shown = self->wound_shown = -1;
}

/* "wound of tumour A": names of fields must differ from one tumour to the next. */
static GtkWidget *
choice_new (const char *name, const char *letter, const char *none, const char *const *choices)
{
  g_autofree char *whole = g_strdup_printf (_("%s of tumour %s"), name, letter);

  return sw_choice_new (whole, none, choices);
}

static SwQuantityEntry *
side_new (SwSiteForm *self, const char *name, const char *letter)
{
  g_autofree char *whole = g_strdup_printf (_("%s of the wound of tumour %s, in mm"), name, letter);
  SwQuantityEntry *side = SW_QUANTITY_ENTRY (sw_quantity_entry_new (SW_QUANTITY_LENGTH, whole));

  sw_quantity_entry_set_width_chars (side, 6);
  g_signal_connect_swapped (side, "changed", G_CALLBACK (show_area), self);
  g_signal_connect (side, "accepted", G_CALLBACK (accepted_cb), self);
  return side;
}

static GtkWidget *
column_new (const char *heading, GtkWidget *choice)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (heading);

  gtk_widget_add_css_class (label, "form-label");
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), choice);
  gtk_box_append (GTK_BOX (column), line);

  return column;
}

static GtkWidget *
mass_column_new (SwSiteForm *self, const char *letter)
{
  const char *looks[SW_N_LOOK_STATES + 1] = { NULL };
  GtkWidget *column;

  for (int i = 0; i < SW_N_LOOK_STATES; i++)
    looks[i] = sw_look_state_name ((SwLookState) i);
  self->look = choice_new (_("What the site shows"), letter, _("the caliper says it"), looks);
  self->readings = SW_SITE_READINGS (sw_site_readings_new (self->tumour, letter));
  g_signal_connect_swapped (self->look, "notify::selected", G_CALLBACK (show_readings), self);
  column = column_new (_("the mass"), self->look);
  gtk_box_append (GTK_BOX (column), GTK_WIDGET (self->readings));

  return column;
}

static GtkWidget *
wound_column_new (SwSiteForm *self, const char *letter)
{
  const char *states[SW_N_WOUND_STATES + 1] = { NULL };
  GtkWidget *column;

  for (int i = 0; i < SW_N_WOUND_STATES; i++)
    states[i] = sw_wound_state_name ((SwWoundState) i);
  self->wound = choice_new (_("Wound"), letter, _("not looked at"), states);
  self->length = side_new (self, _("Length"), letter);
  self->width = side_new (self, _("Width"), letter);
  self->area = sw_quiet_new (NULL);
  self->size = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  g_signal_connect_swapped (self->wound, "notify::selected", G_CALLBACK (show_size), self);
  column = column_new (_("the wound"), self->wound);
  {
    GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

    gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->length));
    gtk_box_append (GTK_BOX (line), gtk_label_new ("×"));
    gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->width));
    gtk_box_append (GTK_BOX (self->size), line);
  }
  gtk_box_append (GTK_BOX (self->size), self->area);
  gtk_box_append (GTK_BOX (column), self->size);

  return column;
}

GtkWidget *
sw_site_form_new (gint64 tumour, const char *title, const char *letter)
{
  SwSiteForm *self = g_object_new (SW_TYPE_SITE_FORM, NULL);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *mass, *wound;

  self->tumour = tumour;
  self->title = g_strdup (title);
  mass = mass_column_new (self, letter);
  wound = wound_column_new (self, letter);
  gtk_widget_set_hexpand (mass, TRUE);
  gtk_widget_set_size_request (wound, WOUND_WIDTH, -1); /* the size appears without moving anything */
  gtk_box_append (GTK_BOX (columns), mass);
  gtk_box_append (GTK_BOX (columns), wound);
  gtk_box_append (GTK_BOX (self), sw_heading_new (title));
  gtk_box_append (GTK_BOX (self), columns);
  show_size (self);

  return GTK_WIDGET (self);
}
