/* sw-patient-heading.c: who the dog is
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-patient-heading.h"

#include "sw-focus.h"
#include "sw-form.h"
#include "sw-quantity.h"
#include "sw-question.h"

#include <glib/gi18n-lib.h>

#define DISEASES "Diseases" /* heading of the questions whose "yes" is a warning on every page */
#define CHIP_LEAST 4        /* characters: the letter and that there is more */

struct _SwPatientHeading
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *box;
  GtkLabel *name;
  GtkLabel *number;
  GtkLabel *kind;
  GtkLabel *client;
  GtkLabel *weight;
  GtkLabel *warnings;
  GtkBox *tumours;
};

G_DEFINE_FINAL_TYPE (SwPatientHeading, sw_patient_heading, GTK_TYPE_WIDGET)

static void
append (GString *text, const char *part)
{
  if (part == NULL || part[0] == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, part);
}

static char *
format_age (const SwPatientDetails *details, SwDay today)
{
  int months;
  const char *about = details->born_exact ? "" : C_("estimated age", "about ");

  if (details->born == SW_UNKNOWN)
    return g_strdup (_("age not known"));
  months = sw_day_months_between (details->born, today);
  if (months < 24)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s%d month", "%s%d months", months), about, months);
  /* Translators: age in years and months: "7 y 2 m", "about 7 y 2 m" */
  return g_strdup_printf (_("%s%d y %d m"), about, months / 12, months % 12);
}

static char *
format_kind (const SwPatientDetails *details, SwDay today)
{
  GString *text = g_string_new (_(details->species));
  g_autofree char *age = format_age (details, today);

  append (text, details->breed);
  if (details->sex != SW_UNKNOWN && details->neutered == 1)
    {
      /* Translators: sex of a dog: "male, neutered" */
      g_autofree char *sex = g_strdup_printf (_("%s, neutered"), sw_sex_name (details->sex));

      append (text, sex);
    }
  else if (details->sex != SW_UNKNOWN)
    append (text, sw_sex_name (details->sex));
  append (text, age);

  return g_string_free (text, FALSE);
}

static char *
format_client (const SwClientDetails *client)
{
  if (client == NULL)
    return g_strdup ("");
  if (client->phone != NULL)
    return g_strdup_printf (_("client %s, %s"), client->name, client->phone);
  return g_strdup_printf (_("client %s"), client->name);
}

static char *
format_weight (const SwWeight *weight, SwDay today)
{
  g_autofree char *kg = NULL;
  gint64 days;

  if (weight == NULL)
    return g_strdup (_("not weighed yet"));
  kg = sw_mass_format (weight->grams);
  days = today - weight->day;
  if (days <= 0)
    return g_strdup_printf (_("%s kg (today)"), kg);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s kg (%d day ago)", "%s kg (%d days ago)", (gulong) days), kg,
                          (int) days);
}

static char *
format_warnings (const SwDossier *dossier, SwDay today)
{
  GString *text = g_string_new (NULL);
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    {
      const SwAnswer *answer;

      if (!g_str_equal (questions[i].heading, DISEASES))
        continue;
      answer = sw_dossier_answer (dossier, 0, 0, questions[i].code, today);
      if (answer != NULL && g_str_equal (answer->answer, "yes"))
        append (text, _(questions[i].name));
    }
  if (text->len > 0)
    g_string_prepend (text, "! ");

  return g_string_free (text, FALSE);
}

/* Shorter when there are many, never shorter than its letter; the whole is its name and its tip. */
static void
shorten (GtkWidget *chip, const char *words, const char *description)
{
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (chip));
  g_autofree char *tip = description != NULL ? g_strdup_printf ("%s\n%s", words, description) : g_strdup (words);

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), CHIP_LEAST);
  gtk_widget_set_tooltip_text (chip, tip);
}

/* "A left hock, cutaneous": a button that opens the tumour. */
static GtkWidget *
chip_new (const SwTumourDetails *tumour, gboolean treated)
{
  g_autofree char *letter = sw_tumour_letter (tumour->letter);
  /* Translators: a tumour: letter, side, region, depth: "A  left hock, cutaneous" */
  g_autofree char *words = g_strdup_printf (_("%s  %s %s, %s"), letter, sw_side_name (tumour->side),
                                            sw_region_name (tumour->region), sw_depth_name (tumour->depth));
  GtkWidget *chip = sw_named_button_new (words, words);

  gtk_widget_add_css_class (chip, "chip");
  if (treated)
    gtk_widget_add_css_class (chip, "treated");
  shorten (chip, words, tumour->description);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (chip), "x", tumour->fact.id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (chip), "patient.correct-tumour");

  return chip;
}

static gboolean
is_treated (const SwPageContext *context, gint64 tumour)
{
  g_autoptr (GArray) treated = NULL;

  if (context->course == 0)
    return FALSE;
  treated = sw_dossier_course_tumours (context->dossier, context->course);
  for (guint i = 0; i < treated->len; i++)
    if (g_array_index (treated, gint64, i) == tumour)
      return TRUE;
  return FALSE;
}

static void
show_tumours (SwPatientHeading *self, const SwPageContext *context)
{
  GtkWidget *child;
  const SwTumourDetails *tumour;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->tumours))) != NULL)
    gtk_box_remove (self->tumours, child);
  for (guint i = 0; (tumour = sw_facts_next (&context->dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    gtk_box_append (self->tumours, chip_new (tumour, is_treated (context, tumour->tumour)));
  sw_focus_strip_changed (GTK_WIDGET (self->tumours));
}

static void
sw_patient_heading_dispose (GObject *object)
{
  g_clear_pointer (&SW_PATIENT_HEADING (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_patient_heading_parent_class)->dispose (object);
}

static void
sw_patient_heading_class_init (SwPatientHeadingClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_patient_heading_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "patientheading");
  gtk_widget_class_set_template_from_resource (widget_class, "/org/siteward/Siteward/sw-patient-heading.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, box);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, name);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, number);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, kind);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, client);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, weight);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, warnings);
  gtk_widget_class_bind_template_child (widget_class, SwPatientHeading, tumours);
}

static void
sw_patient_heading_init (SwPatientHeading *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_patient_heading_set_context (SwPatientHeading *self, const SwPageContext *context)
{
  const SwPatientDetails *details = sw_dossier_patient (context->dossier);
  SwDay today = sw_page_context_now (context).day;
  g_autofree char *number = sw_patient_number (context->patient);
  g_autofree char *kind = details != NULL ? format_kind (details, today) : g_strdup ("");
  g_autofree char *client = format_client (sw_dossier_client (context->dossier));
  g_autofree char *weight = format_weight (sw_facts_last (&context->dossier->facts, SW_FACT_WEIGHT), today);
  g_autofree char *warnings = format_warnings (context->dossier, today);

  gtk_label_set_text (self->name, details != NULL ? details->name : "");
  gtk_label_set_text (self->number, number);
  gtk_label_set_text (self->kind, kind);
  gtk_label_set_text (self->client, client);
  gtk_label_set_text (self->weight, weight);
  gtk_label_set_text (self->warnings, warnings);
  gtk_widget_set_visible (GTK_WIDGET (self->warnings), warnings[0] != '\0');
  show_tumours (self, context);
}
