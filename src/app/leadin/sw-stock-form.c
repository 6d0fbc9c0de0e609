/* sw-stock-form.c: put another strength of a medicine on the practice's shelf
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-stock-form-private.h"

#include "sw-form.h"
#include "sw-quantity.h"
#include "sw-step-page.h"

#include <glib/gi18n-lib.h>

#define UG_DIGITS 3 /* ug are thousandths of mg */

enum { FORM_TABLET, FORM_LIQUID, N_FORMS };

struct _SwStockForm
{
  GtkBox parent_instance;

  GtkLabel *words;
  GtkWidget *strength;
  GtkWidget *form;
  SwFindingView *answer;

  char *substance;
};

G_DEFINE_FINAL_TYPE (SwStockForm, sw_stock_form, GTK_TYPE_BOX)

static const SwPageContext *
context_of (SwStockForm *self)
{
  return sw_step_page_get_context (SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE)));
}

static gboolean
take_strength (SwStockForm *self, gint64 *ug)
{
  g_autofree char *text = sw_field_dup_text (self->strength);
  g_autoptr (GError) error = NULL;

  if (text != NULL)
    g_strdelimit (text, ",", '.');
  if (text != NULL && sw_decimal_parse (text, UG_DIGITS, ug, &error) && *ug > 0)
    return TRUE;
  sw_finding_view_set_sentence (
      self->answer, SW_STOP,
      error != NULL ? error->message : _("Type the strength as a number of milligrams, for example 2.5."), NULL);
  gtk_widget_grab_focus (self->strength);
  return FALSE;
}

/* What the practice stocks now, as its setting says it: the strengths of the document until it has its own. */
static char *
stocked_now (const SwPageContext *context, const char *substance, const char *setting)
{
  const SwMedicine *medicine = sw_books_medicine (sw_page_context_books (context), substance);
  GString *text = g_string_new (setting);

  for (guint i = 0; setting == NULL && medicine != NULL && i < medicine->strengths->len; i++)
    {
      const SwStrength *strength = medicine->strengths->pdata[i];

      g_string_append_printf (text, "%s%" G_GINT64_FORMAT "%s", text->len > 0 ? ";" : "", strength->ug,
                              strength->form == SW_FORM_LIQUID ? "/mL" : "");
    }

  return g_string_free (text, FALSE);
}

static SwSetting *
current_setting (const SwPractice *practice, const char *key)
{
  SwSetting *setting;

  for (guint i = 0; (setting = sw_facts_next (&practice->facts, SW_FACT_SETTING, &i)) != NULL;)
    if (g_str_equal (setting->key, key))
      return setting;
  return NULL;
}

static SwSetting *
setting_with (SwStockForm *self, gint64 ug)
{
  const SwPageContext *context = context_of (self);
  g_autofree char *key = g_strconcat ("strengths.", self->substance, NULL);
  const SwSetting *old = current_setting (sw_page_context_practice (context), key);
  g_autofree char *now = stocked_now (context, self->substance, old != NULL ? old->value : NULL);
  SwSetting *setting = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_SETTING, SwSetting);

  g_free (setting->key);
  g_free (setting->value);
  setting->key = g_steal_pointer (&key);
  setting->value = g_strdup_printf ("%s%s%" G_GINT64_FORMAT "%s", now, now[0] != '\0' ? ";" : "", ug,
                                    sw_choice_get (self->form, FALSE) == FORM_LIQUID ? "/mL" : "");
  return setting;
}

static void
replied_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  SwStockForm *self = data;

  if (reply == NULL || !reply->done)
    return;
  gtk_editable_set_text (GTK_EDITABLE (self->strength), "");
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

static void
add_cb (GtkButton *button, SwStockForm *self)
{
  SwStepPage *page = SW_STEP_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (self), SW_TYPE_STEP_PAGE));
  SwRequest *request;
  gint64 ug;

  if (!take_strength (self, &ug))
    return;
  request = sw_request_new (SW_ACT_CHANGE_SETTING, context_of (self)->person, 0);
  sw_request_add (request, setting_with (self, ug));
  sw_step_page_perform (page, request, self->answer, replied_cb, self);
}

void
sw_stock_form_ask (SwStockForm *self, const char *substance)
{
  g_autofree char *words = g_strdup_printf (_("The practice also stocks %s of"), substance);

  g_free (self->substance);
  self->substance = g_strdup (substance);
  gtk_label_set_text (self->words, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->strength), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  sw_finding_view_clear (self->answer);
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
  gtk_widget_grab_focus (self->strength);
}

static void
sw_stock_form_finalize (GObject *object)
{
  g_free (SW_STOCK_FORM (object)->substance);
  G_OBJECT_CLASS (sw_stock_form_parent_class)->finalize (object);
}

static void
sw_stock_form_class_init (SwStockFormClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_stock_form_finalize;
}

static void
sw_stock_form_init (SwStockForm *self)
{
  static const char *const forms[N_FORMS + 1]
      = { [FORM_TABLET] = N_("mg, a tablet or capsule"), [FORM_LIQUID] = N_("mg in 1 mL, a liquid") };
  const char *shown[N_FORMS + 1] = { _(forms[FORM_TABLET]), _(forms[FORM_LIQUID]), NULL };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *add = sw_button_new (_("Add to the Stock"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->words = GTK_LABEL (gtk_label_new (NULL));
  self->strength = sw_text_field_new (6);
  self->form = sw_choice_new (_("form and unit of the strength"), NULL, shown);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  g_signal_connect (add, "clicked", G_CALLBACK (add_cb), self);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->words));
  gtk_box_append (GTK_BOX (line), self->strength);
  gtk_box_append (GTK_BOX (line), self->form);
  gtk_box_append (GTK_BOX (line), add);
  gtk_box_append (GTK_BOX (self), line);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
sw_stock_form_new (void)
{
  return g_object_new (SW_TYPE_STOCK_FORM, NULL);
}
