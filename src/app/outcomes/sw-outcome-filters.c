/* sw-outcome-filters.c: period, filter, split, what to compare with
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-filters.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

typedef enum
{
  PERIOD_ALL,
  PERIOD_YEAR,
  PERIOD_QUARTER,
  PERIOD_DAYS
} Period;

#define YEAR_MONTHS 12
#define QUARTER_MONTHS 3

struct _SwOutcomeFilters
{
  GtkWidget parent_instance;

  GtkWidget *box;
  GtkWidget *period, *from, *to, *days;
  GtkWidget *message;
  GtkWidget *split, *only, *value;
  GtkWidget *published, *rates;

  GArray *rows;      /* owned; NULL until known */
  SwRecord *record;  /* owned; for the names of people */
  GPtrArray *values; /* SwSplitValue of the chosen filter */
  guint quiet;       /* choices are being set, nobody chose */
};

G_DEFINE_FINAL_TYPE (SwOutcomeFilters, sw_outcome_filters, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
changed (SwOutcomeFilters *self)
{
  if (self->quiet == 0)
    g_signal_emit (self, signals[CHANGED], 0);
}

/* --- days that are typed --- */

/* An empty field is an open end; anything else must be a day. */
static gboolean
read_day (GtkWidget *entry, SwDay *day, GError **error)
{
  g_autofree char *text = sw_field_dup_text (entry);

  *day = SW_NO_DAY;
  return text == NULL || sw_day_parse (text, day, error);
}

static gboolean
days_hold (SwOutcomeFilters *self)
{
  g_autoptr (GError) error = NULL;
  SwDay from, to;
  gboolean hold = read_day (self->from, &from, &error) && read_day (self->to, &to, &error);

  gtk_label_set_text (GTK_LABEL (self->message), hold ? "" : error->message);
  gtk_widget_set_visible (self->message, !hold);
  return hold;
}

static void
day_typed_cb (GtkEditable *entry, SwOutcomeFilters *self)
{
  if (days_hold (self))
    changed (self);
}

/* --- choices --- */

static void
period_cb (GtkDropDown *choice, GParamSpec *pspec, SwOutcomeFilters *self)
{
  gboolean days = sw_choice_get (self->period, FALSE) == PERIOD_DAYS;

  gtk_widget_set_visible (self->days, days);
  gtk_widget_set_visible (self->message, FALSE);
  changed (self);
}

static void
choice_cb (GtkDropDown *choice, GParamSpec *pspec, SwOutcomeFilters *self)
{
  changed (self);
}

static int
chosen_filter (SwOutcomeFilters *self)
{
  int only = sw_choice_get (self->only, TRUE);

  return only < 0 ? SW_SPLIT_NONE : only + 1;
}

static void
show_values (SwOutcomeFilters *self, const char *const *labels, int chosen)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (labels);

  self->quiet++;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->value), G_LIST_MODEL (list));
  if (labels[0] != NULL)
    sw_choice_set (self->value, FALSE, chosen);
  self->quiet--;
}

/* The value chosen before stays chosen where it is still there. */
static void
fill_values (SwOutcomeFilters *self)
{
  g_autoptr (GPtrArray) labels = g_ptr_array_new ();
  int split = chosen_filter (self);
  int before = sw_choice_get (self->value, FALSE);
  g_autofree char *code = self->values != NULL && before >= 0 && before < (int) self->values->len
                              ? g_strdup (((SwSplitValue *) self->values->pdata[before])->code)
                              : NULL;
  int chosen = 0;

  g_clear_pointer (&self->values, g_ptr_array_unref);
  if (split != SW_SPLIT_NONE && self->rows != NULL)
    self->values = sw_split_values (self->rows, sw_record_get_practice (self->record), (SwSplit) split);
  for (guint i = 0; self->values != NULL && i < self->values->len; i++)
    {
      const SwSplitValue *value = self->values->pdata[i];

      g_ptr_array_add (labels, value->label);
      if (g_strcmp0 (value->code, code) == 0)
        chosen = (int) i;
    }
  g_ptr_array_add (labels, NULL);
  show_values (self, (const char *const *) labels->pdata, chosen);
  gtk_widget_set_visible (self->value, self->values != NULL && self->values->len > 0);
}

static void
only_cb (GtkDropDown *choice, GParamSpec *pspec, SwOutcomeFilters *self)
{
  fill_values (self);
  changed (self);
}

/* --- the bar --- */

static GtkWidget *
labelled (const char *words, GtkWidget *field)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *label = gtk_label_new (words);

  gtk_widget_add_css_class (label, "quiet");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), field);
  return box;
}

static GtkWidget *
day_field (SwOutcomeFilters *self, const char *name)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 10);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), "2026-05-14");
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (entry, "changed", G_CALLBACK (day_typed_cb), self);
  return entry;
}

static GtkWidget *
choice (SwOutcomeFilters *self, const char *name, const char *none, const char *const *choices, GCallback callback)
{
  GtkWidget *drop_down = sw_choice_new (name, none, choices);

  g_signal_connect (drop_down, "notify::selected", callback, self);
  return drop_down;
}

static GtkWidget *
period_row (SwOutcomeFilters *self)
{
  const char *const periods[] = { _("all time"), _("last 12 months"), _("last 3 months"), _("days to type"), NULL };
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);

  self->period = choice (self, _("Treated in"), NULL, periods, G_CALLBACK (period_cb));
  self->days = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  self->from = day_field (self, _("First treatment day"));
  self->to = day_field (self, _("Last treatment day"));
  self->message = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->message, "field-message");
  gtk_widget_set_visible (self->message, FALSE);
  gtk_box_append (GTK_BOX (self->days), labelled (_("from"), self->from));
  gtk_box_append (GTK_BOX (self->days), labelled (_("to"), self->to));
  gtk_widget_set_visible (self->days, FALSE);
  gtk_box_append (GTK_BOX (row), labelled (_("treated in"), self->period));
  return row;
}

static void
append_splits (SwOutcomeFilters *self, GtkBox *row)
{
  const char *apart[SW_N_SPLITS + 1] = { NULL }, *filters[SW_N_SPLITS] = { NULL };

  for (int i = 0; i < SW_N_SPLITS; i++)
    apart[i] = sw_split_name ((SwSplit) i);
  for (int i = 1; i < SW_N_SPLITS; i++)
    filters[i - 1] = sw_split_name ((SwSplit) i);
  self->split = choice (self, _("Told apart by"), NULL, apart, G_CALLBACK (choice_cb));
  self->only = choice (self, _("Only with a certain"), _("no filter"), filters, G_CALLBACK (only_cb));
  self->value = sw_choice_new (_("Value of the filter"), NULL, (const char *const[]){ NULL });
  g_signal_connect (self->value, "notify::selected", G_CALLBACK (choice_cb), self);
  gtk_widget_set_visible (self->value, FALSE);
  gtk_box_append (row, labelled (_("told apart by"), self->split));
  gtk_box_append (row, labelled (_("only"), self->only));
  gtk_box_append (row, self->value);
}

static GtkWidget *
compare_row (SwOutcomeFilters *self)
{
  const char *const rates[] = { _("10 % against 20 %"), _("20 % against 40 %"), _("30 % against 50 %"), NULL };
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  g_autoptr (GPtrArray) published = g_ptr_array_new_with_free_func (g_free);

  for (int id = SW_DEF_PUBLISHED_FIRST; id <= SW_DEF_PUBLISHED_SECOND; id++)
    {
      const SwDefinition *share = sw_definition ((SwDefinitionId) id);

      g_ptr_array_add (published,
                       g_strdup_printf (_("%d of %d, %s"), (int) share->num, (int) share->den, share->source));
    }
  g_ptr_array_add (published, NULL);
  self->published = choice (self, _("Complete response against"), _("nothing published"),
                            (const char *const *) published->pdata, G_CALLBACK (choice_cb));
  sw_choice_set (self->published, TRUE, 0);
  self->rates = choice (self, _("Failures, running sum"), NULL, rates, G_CALLBACK (choice_cb));
  sw_choice_set (self->rates, FALSE, SW_RATES_USUAL);
  gtk_box_append (GTK_BOX (row), labelled (_("complete response against"), self->published));
  gtk_box_append (GTK_BOX (row), labelled (_("failures, running sum"), self->rates));
  return row;
}

static void
sw_outcome_filters_dispose (GObject *object)
{
  SwOutcomeFilters *self = SW_OUTCOME_FILTERS (object);

  self->quiet++;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->record);
  g_clear_pointer (&self->rows, g_array_unref);
  g_clear_pointer (&self->values, g_ptr_array_unref);
  G_OBJECT_CLASS (sw_outcome_filters_parent_class)->dispose (object);
}

static void
sw_outcome_filters_class_init (SwOutcomeFiltersClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_outcome_filters_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  signals[CHANGED]
      = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_outcome_filters_init (SwOutcomeFilters *self)
{
  GtkWidget *first;

  self->quiet = 1;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  first = period_row (self);
  append_splits (self, GTK_BOX (first));
  gtk_box_append (GTK_BOX (self->box), first);
  gtk_box_append (GTK_BOX (self->days), self->message);
  gtk_box_append (GTK_BOX (self->box), self->days);
  gtk_box_append (GTK_BOX (self->box), compare_row (self));
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->quiet = 0;
}

GtkWidget *
sw_outcome_filters_new (void)
{
  return g_object_new (SW_TYPE_OUTCOME_FILTERS, NULL);
}

static void
set_period (SwOutcomeFilters *self, SwOutcomeQuery *query, SwDay today)
{
  switch ((Period) sw_choice_get (self->period, FALSE))
    {
    case PERIOD_YEAR:
      query->from = sw_day_add_months (today, -YEAR_MONTHS);
      break;
    case PERIOD_QUARTER:
      query->from = sw_day_add_months (today, -QUARTER_MONTHS);
      break;
    case PERIOD_DAYS:
      read_day (self->from, &query->from, NULL);
      read_day (self->to, &query->to, NULL);
      break;
    case PERIOD_ALL:
      break;
    }
}

SwOutcomeQuery *
sw_outcome_filters_get_query (SwOutcomeFilters *self, SwDay today)
{
  SwOutcomeQuery *query = sw_outcome_query_new ();
  int published = sw_choice_get (self->published, TRUE), value = sw_choice_get (self->value, FALSE);
  int only = chosen_filter (self);

  set_period (self, query, today);
  query->split = (SwSplit) sw_choice_get (self->split, FALSE);
  query->rates = (SwRates) sw_choice_get (self->rates, FALSE);
  query->published = published < 0 ? SW_N_DEFINITIONS : (SwDefinitionId) ((int) SW_DEF_PUBLISHED_FIRST + published);
  if (only != SW_SPLIT_NONE && self->values != NULL && value >= 0 && value < (int) self->values->len)
    query->only[only] = g_strdup (((SwSplitValue *) self->values->pdata[value])->code);
  return query;
}

void
sw_outcome_filters_set_rows (SwOutcomeFilters *self, SwRecord *record, GArray *rows)
{
  g_clear_pointer (&self->rows, g_array_unref);
  self->rows = g_array_ref (rows);
  g_set_object (&self->record, record);
  fill_values (self);
}
