/* sw-dose-section.c: what follows from the recorded weight and readings
 *
 * Shows what rules answer for the rows on record; what is only typed counts for nothing here.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dose-section-private.h"

#include "sw-dose.h"
#include "sw-form.h"
#include "sw-quantity.h"
#include "sw-why-view.h"

#include <glib/gi18n-lib.h>

struct _SwDoseSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *figures; /* a grid: name, value, quiet */
  GtkWidget *shares;  /* a grid: words, bar, per cent */
  GtkWidget *missing; /* why there is no dose yet */
  SwFindingView *refusals;
  SwFindingView *notes;

  GtkWidget *why;       /* an expander, owned until the page shows it */
  SwWhyView *why_lines; /* in it */
};

G_DEFINE_FINAL_TYPE (SwDoseSection, sw_dose_section, SW_TYPE_TREATMENT_SECTION)

static void
clear_grid (GtkWidget *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (grid)) != NULL)
    gtk_grid_remove (GTK_GRID (grid), child);
}

static GtkWidget *
put_label (GtkWidget *grid, int column, int row, const char *text, float xalign, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (grid), label, column, row, 1, 1);

  return label;
}

static void
put_figure (SwDoseSection *self, int *row, const char *name, const char *value, const char *quiet, const char *css)
{
  put_label (self->figures, 0, *row, name, 0, "form-label");
  put_label (self->figures, 1, *row, value, 0, css);
  put_label (self->figures, 2, *row, quiet, 0, "quiet");
  (*row)++;
}

/* --- figures --- */

static void
put_drawn (SwDoseSection *self, int *row, const SwTumourDose *dose)
{
  g_autofree char *drawn = sw_treatment_ml (dose->drawn_nl);
  g_autofree char *holds = sw_ratio_format_significant (sw_ratio (dose->syringe_nl, SW_NL_PER_ML), 1);
  g_autofree char *syringe = NULL;

  if (dose->syringes > 1)
    syringe = g_strdup_printf (_("in %u syringes of %s mL"), dose->syringes, holds);
  else
    syringe = g_strdup_printf (_("in a %s mL syringe"), holds);
  put_figure (self, row, _("draw"), drawn, syringe, "result");
}

/* Says what the range is: nobody may take it for a range to choose a dose from. */
static char *
between_words (double lo, double hi)
{
  return g_strdup_printf (_("reading error %.2f – %.2f"), lo, hi);
}

static void
put_tumour (SwDoseSection *self, int *row, const SwTumourDose *dose)
{
  g_autofree char *volume = sw_volume_format (dose->volume_cm3);
  g_autofree char *cm3 = g_strdup_printf ("%s cm³", volume);
  g_autofree char *between = between_words (dose->interval.lo, dose->interval.hi);
  g_autofree char *number = NULL, *ml = NULL, *dose_between = NULL;

  put_figure (self, row, _("tumour volume"), cm3, between, NULL);
  if (!dose->has_dose)
    return;
  number = sw_ratio_format (dose->dose_ml, 2);
  ml = g_strdup_printf ("%s mL", number);
  dose_between = between_words (dose->dose_lo_ml, dose->dose_hi_ml);
  put_figure (self, row, _("inject"), ml, dose_between, NULL);
  if (dose->drawn_nl != SW_UNKNOWN)
    put_drawn (self, row, dose);
}

static void
put_total (SwDoseSection *self, int *row, const SwDoseResult *dose)
{
  g_autofree char *total = sw_treatment_ml (dose->total_nl);
  g_autofree char *left = dose->left_nl != SW_UNKNOWN ? sw_treatment_ml (dose->left_nl) : NULL;
  g_autofree char *vials = NULL;

  if (dose->vials > 0)
    vials = g_strdup_printf (ngettext ("%u vial, %s left over", "%u vials, %s left over", dose->vials), dose->vials,
                             left);
  if (dose->tumours->len > 1)
    put_figure (self, row, _("together"), total, vials, "result");
  else if (vials != NULL)
    put_figure (self, row, _("opens"), vials, NULL, NULL);
}

static void
show_figures (SwDoseSection *self, const SwPageContext *context, const SwDoseResult *dose)
{
  int row = 0;

  clear_grid (self->figures);
  for (guint i = 0; dose != NULL && i < dose->tumours->len; i++)
    {
      const SwTumourDose *tumour = &g_array_index (dose->tumours, SwTumourDose, i);
      g_autofree char *name = sw_treatment_tumour_name (context, tumour->tumour);

      if (dose->tumours->len > 1)
        gtk_grid_attach (GTK_GRID (self->figures), sw_heading_new (name), 0, row++, 3, 1);
      put_tumour (self, &row, tumour);
    }
  if (dose != NULL && !dose->refused)
    put_total (self, &row, dose);
}

/* --- shares of the limits --- */

static char *
share_words (const SwPageContext *context, const SwDoseShare *share, gboolean several)
{
  g_autofree char *most = sw_ratio_format_significant (share->most, 3);
  const SwTumourDetails *tumour = sw_dossier_tumour (context->dossier, share->tumour);
  g_autofree char *letter = tumour != NULL ? sw_tumour_letter (tumour->letter) : NULL;

  if (share->limit == SW_FINDING_WEIGHT_LIMIT)
    return g_strdup_printf (_("of the weight limit, %s mL"), most);
  if (share->limit == SW_FINDING_TREATMENT_LIMIT)
    return g_strdup_printf (_("of the treatment limit, %s mL"), most);
  if (several && letter != NULL)
    return g_strdup_printf (_("%s: of the tumour limit, %s cm³"), letter, most);
  return g_strdup_printf (_("of the tumour limit, %s cm³"), most);
}

/* One decimal: a whole per cent would have to err to one side of the limit. */
static char *
share_percent (const SwDoseShare *share)
{
  g_autofree char *number = sw_ratio_format (share->percent, 1);

  return share->over ? g_strdup_printf (_("%s %%, over"), number) : g_strdup_printf ("%s %%", number);
}

static void
put_share (SwDoseSection *self, const SwPageContext *context, int row, const SwDoseShare *share, gboolean several)
{
  g_autofree char *words = share_words (context, share, several);
  g_autofree char *percent = share_percent (share);
  GtkWidget *bar = gtk_level_bar_new_for_interval (0, SW_PER_CENT);

  put_label (self->shares, 0, row, words, 0, "form-label");
  gtk_level_bar_set_value (GTK_LEVEL_BAR (bar), MIN (sw_ratio_to_double (share->percent), (double) SW_PER_CENT));
  gtk_widget_add_css_class (bar, share->over ? "over" : "within");
  gtk_widget_set_hexpand (bar, TRUE);
  gtk_widget_set_valign (bar, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_grid_attach (GTK_GRID (self->shares), bar, 1, row, 1, 1);
  put_label (self->shares, 2, row, percent, 1, share->over ? "over-words" : "figure");
}

static void
show_shares (SwDoseSection *self, const SwPageContext *context, const SwDoseResult *dose)
{
  clear_grid (self->shares);
  for (guint i = 0; dose != NULL && i < dose->shares->len; i++)
    put_share (self, context, (int) i, &g_array_index (dose->shares, SwDoseShare, i), dose->tumours->len > 1);
}

/* --- the whole --- */

static void
sw_dose_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwDoseSection *self = SW_DOSE_SECTION (section);
  SwCase c = sw_treatment_case (context);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (&c, &error);

  gtk_label_set_text (GTK_LABEL (self->missing), dose == NULL ? error->message : "");
  gtk_widget_set_visible (self->missing, dose == NULL);
  show_figures (self, context, dose);
  show_shares (self, context, dose);
  sw_finding_view_set_findings (self->refusals, dose != NULL ? dose->refusals : NULL, FALSE);
  sw_finding_view_set_findings (self->notes, dose != NULL ? dose->notes : NULL, FALSE);
  sw_why_view_set_lines (self->why_lines, dose != NULL ? dose->why : NULL);
  gtk_widget_set_visible (self->why, dose != NULL);
}

static void
sw_dose_section_dispose (GObject *object)
{
  g_clear_object (&SW_DOSE_SECTION (object)->why);
  G_OBJECT_CLASS (sw_dose_section_parent_class)->dispose (object);
}

static void
sw_dose_section_class_init (SwDoseSectionClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_dose_section_dispose;
  SW_TREATMENT_SECTION_CLASS (class)->update = sw_dose_section_update;
}

static GtkWidget *
grid_new (void)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);

  return grid;
}

static void
sw_dose_section_init (SwDoseSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);

  sw_treatment_section_set_heading (section, _("Dose"));
  self->missing = sw_quiet_new (NULL);
  self->figures = grid_new ();
  self->shares = grid_new ();
  self->refusals = SW_FINDING_VIEW (sw_finding_view_new ());
  self->notes = SW_FINDING_VIEW (sw_finding_view_new ());
  self->why_lines = SW_WHY_VIEW (sw_why_view_new ());
  self->why = g_object_ref_sink (gtk_expander_new (_("Why these numbers")));
  gtk_expander_set_child (GTK_EXPANDER (self->why), GTK_WIDGET (self->why_lines));
  gtk_widget_set_margin_top (GTK_WIDGET (self->why_lines), 6);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->why), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Why these numbers"),
                                  -1);
  sw_treatment_section_append (section, self->missing);
  sw_treatment_section_append (section, GTK_WIDGET (self->refusals));
  sw_treatment_section_append (section, self->figures);
  sw_treatment_section_append (section, self->shares);
  sw_treatment_section_append (section, GTK_WIDGET (self->notes));
}

GtkWidget *
sw_dose_section_get_why (SwDoseSection *self)
{
  return self->why;
}
