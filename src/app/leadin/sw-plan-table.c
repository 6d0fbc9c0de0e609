/* sw-plan-table.c: the medicine plan as a table
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-plan-table-private.h"

#include "sw-plan-rows-private.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

/* Grid rows kept for each group: its phases, and more after a move; empty ones take no room. */
#define ROWS_OF_GROUP 24

enum { COLUMN_MEDICINE, COLUMN_DOSE, COLUMN_FROM, COLUMN_TO, COLUMN_TABLETS, N_COLUMNS };

static const char *const headings[N_COLUMNS] = {
  [COLUMN_MEDICINE] = N_("medicine"), [COLUMN_DOSE] = N_("dose"),       [COLUMN_FROM] = N_("from"),
  [COLUMN_TO] = N_("to"),             [COLUMN_TABLETS] = N_("tablets"),
};

typedef struct
{
  char *id;
  gboolean optional;
  GStrv substances;
  GtkWidget *choice; /* borrowed: a child of the grid; NULL in a table without choices */
} Group;

struct _SwPlanTable
{
  GtkGrid parent_instance;

  GPtrArray *groups; /* Group */
  GPtrArray *cells;  /* borrowed: the labels of the rows */
  gboolean chooses;
  gboolean setting;
};

G_DEFINE_FINAL_TYPE (SwPlanTable, sw_plan_table, GTK_TYPE_GRID)

enum { CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
group_free (Group *group)
{
  g_free (group->id);
  g_strfreev (group->substances);
  g_free (group);
}

static GtkWidget *
attach_label (SwPlanTable *self, const char *text, int column, int row)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_valign (label, GTK_ALIGN_BASELINE);
  gtk_widget_add_css_class (label, "figure");
  gtk_grid_attach (GTK_GRID (self), label, column, row, 1, 1);

  return label;
}

static void
clear_cells (SwPlanTable *self)
{
  for (guint i = 0; i < self->cells->len; i++)
    gtk_grid_remove (GTK_GRID (self), self->cells->pdata[i]);
  g_ptr_array_set_size (self->cells, 0);
}

static void
clear_groups (SwPlanTable *self)
{
  for (guint i = 0; i < self->groups->len; i++)
    {
      const Group *group = self->groups->pdata[i];

      if (group->choice != NULL)
        gtk_grid_remove (GTK_GRID (self), group->choice);
    }
  g_ptr_array_set_size (self->groups, 0);
}

static void
chosen_cb (GtkDropDown *choice, GParamSpec *pspec, SwPlanTable *self)
{
  if (!self->setting)
    g_signal_emit (self, signals[CHANGED], 0);
}

static GStrv
substances_of (const SwMedicineGroup *group)
{
  GStrvBuilder *builder = g_strv_builder_new ();
  GStrv substances;

  for (guint i = 0; i < group->alternatives->len; i++)
    g_strv_builder_add (builder, ((const SwAlternative *) group->alternatives->pdata[i])->substance);
  substances = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);

  return substances;
}

static void
add_choice (SwPlanTable *self, Group *group, const char *title, int row)
{
  g_autofree char *name = g_strdup_printf (_("medicine for %s"), title);
  g_autofree char *none = g_strdup_printf (_("no %s"), title);

  group->choice = sw_choice_new (name, group->optional ? none : NULL, (const char *const *) group->substances);
  gtk_widget_set_valign (group->choice, GTK_ALIGN_BASELINE);
  g_signal_connect (group->choice, "notify::selected", G_CALLBACK (chosen_cb), self);
  gtk_grid_attach (GTK_GRID (self), group->choice, COLUMN_MEDICINE, row, 1, 1);
}

void
sw_plan_table_choose (SwPlanTable *self, const char *group_id, const char *substance)
{
  self->setting = TRUE;
  for (guint i = 0; i < self->groups->len; i++)
    {
      const Group *group = self->groups->pdata[i];
      int found = -1;

      if (group->choice == NULL || !g_str_equal (group->id, group_id))
        continue;
      for (int k = 0; substance != NULL && group->substances[k] != NULL; k++)
        if (g_str_equal (group->substances[k], substance))
          found = k;
      sw_choice_set (group->choice, group->optional, found);
    }
  self->setting = FALSE;
  g_signal_emit (self, signals[CHANGED], 0);
}

void
sw_plan_table_set_groups (SwPlanTable *self, const SwProtocol *protocol, const char *choices)
{
  clear_cells (self);
  clear_groups (self);
  self->setting = TRUE;
  for (guint i = 0; i < protocol->groups->len; i++)
    {
      const SwMedicineGroup *shown = protocol->groups->pdata[i];
      g_autofree char *substance = sw_choices_get (choices, shown->id);
      Group *group = g_new0 (Group, 1);

      group->id = g_strdup (shown->id);
      group->optional = shown->optional;
      group->substances = substances_of (shown);
      g_ptr_array_add (self->groups, group);
      if (self->chooses)
        add_choice (self, group, shown->title, 1 + (int) i * ROWS_OF_GROUP);
      for (int k = 0; self->chooses && substance != NULL && group->substances[k] != NULL; k++)
        if (g_str_equal (group->substances[k], substance))
          sw_choice_set (group->choice, group->optional, k);
    }
  self->setting = FALSE;
}

char *
sw_plan_table_get_choices (SwPlanTable *self)
{
  char *choices = g_strdup ("");

  for (guint i = 0; i < self->groups->len; i++)
    {
      const Group *group = self->groups->pdata[i];
      int chosen = group->choice != NULL ? sw_choice_get (group->choice, group->optional) : -1;
      char *more = sw_choices_set (choices, group->id, chosen >= 0 ? group->substances[chosen] : NULL);

      g_free (choices);
      choices = more;
    }

  return choices;
}

static void
add_cell (SwPlanTable *self, const char *text, int column, int row)
{
  g_ptr_array_add (self->cells, attach_label (self, text, column, row));
}

/* A later run that differs only in its days says so. */
static void
add_row (SwPlanTable *self, const SwPlanRow *row, const SwPlanRow *before, int at)
{
  g_autofree char *dose = g_strdup_printf ("%s %s", row->dose, row->mark);
  gboolean same_group = before != NULL && g_str_equal (before->group, row->group);
  gboolean same_medicine = same_group && g_str_equal (before->medicine, row->medicine);

  if (!self->chooses && !same_medicine)
    add_cell (self, row->medicine, COLUMN_MEDICINE, at);
  add_cell (self, dose, COLUMN_DOSE, at);
  add_cell (self, row->from, COLUMN_FROM, at);
  add_cell (self, row->to, COLUMN_TO, at);
  add_cell (self, same_medicine && g_str_equal (before->tablets, row->tablets) ? _("the same") : row->tablets,
            COLUMN_TABLETS, at);
}

static void
add_none (SwPlanTable *self, int at)
{
  add_cell (self, _("no stocked strength makes this dose"), COLUMN_DOSE, at);
  gtk_widget_add_css_class (g_ptr_array_index (self->cells, self->cells->len - 1), "not-recorded");
}

void
sw_plan_table_show (SwPlanTable *self, const GPtrArray *rows)
{
  clear_cells (self);
  for (guint g = 0; g < self->groups->len; g++)
    {
      const Group *group = self->groups->pdata[g];
      const SwPlanRow *before = NULL;
      int at = 1 + (int) g * ROWS_OF_GROUP;

      for (guint i = 0; i < rows->len; i++)
        {
          const SwPlanRow *row = rows->pdata[i];

          if (!g_str_equal (row->group, group->id))
            continue;
          add_row (self, row, before, at++);
          before = row;
        }
      if (before == NULL && group->choice != NULL && sw_choice_get (group->choice, group->optional) >= 0)
        add_none (self, at);
    }
}

static void
sw_plan_table_finalize (GObject *object)
{
  SwPlanTable *self = SW_PLAN_TABLE (object);

  g_ptr_array_unref (self->groups);
  g_ptr_array_unref (self->cells);
  G_OBJECT_CLASS (sw_plan_table_parent_class)->finalize (object);
}

static void
sw_plan_table_class_init (SwPlanTableClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_plan_table_finalize;
  signals[CHANGED]
      = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_plan_table_init (SwPlanTable *self)
{
  self->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) group_free);
  self->cells = g_ptr_array_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self), 3);
  gtk_grid_set_column_spacing (GTK_GRID (self), 18);
  for (int i = 0; i < N_COLUMNS; i++)
    gtk_widget_add_css_class (attach_label (self, _(headings[i]), i, 0), "table-head");
}

GtkWidget *
sw_plan_table_new (gboolean chooses)
{
  SwPlanTable *self = g_object_new (SW_TYPE_PLAN_TABLE, NULL);

  self->chooses = chooses;
  return GTK_WIDGET (self);
}
