/* sw-block-list.c: what stands in the way of signing
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-block-list-private.h"

#include "sw-dose-words-private.h"

#include "sw-finding-view.h"
#include "sw-form.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Where it is cured. */
typedef enum { PLACE_HERE, PLACE_WORK_UP, PLACE_PRACTICE, N_PLACES } Place;

static const char *const titles[N_PLACES] = {
  [PLACE_HERE] = N_("On this page"),
  [PLACE_WORK_UP] = N_("In the work-up"),
  [PLACE_PRACTICE] = N_("In the practice's documents"),
};

struct _SwBlockList
{
  GtkBox parent_instance;

  GtkWidget *first_act; /* borrowed */
};

G_DEFINE_FINAL_TYPE (SwBlockList, sw_block_list, GTK_TYPE_BOX)

enum { TAKE_DAY, TAKE_SUBSTANCE, STOCK, LABEL_READ, N_SIGNALS };

static guint signals[N_SIGNALS];

static Place
place_of (const SwFinding *finding)
{
  static const SwFindingCode here[] = {
    SW_FINDING_NO_PLANNING_WEIGHT, SW_FINDING_PLANNING_WEIGHT_OLD, SW_FINDING_LEAD_IN_TOO_LATE,
    SW_FINDING_COUNT_CANNOT_HOLD,  SW_FINDING_SECOND_TOO_EARLY,    SW_FINDING_NO_TABLET_FITS,
    SW_FINDING_NOT_LISTED,         SW_FINDING_TABLET_DEVIATES,     SW_FINDING_XYLITOL_PLANNED,
  };
  static const SwFindingCode practice[] = {
    SW_FINDING_NOT_ADOPTED, SW_FINDING_OTHER_REVISION, SW_FINDING_NO_MEDICINE_DOCUMENT, SW_FINDING_NO_INTERACTIONS,
  };

  for (guint i = 0; i < G_N_ELEMENTS (here); i++)
    if (finding->code == here[i])
      return PLACE_HERE;
  for (guint i = 0; i < G_N_ELEMENTS (practice); i++)
    if (finding->code == practice[i])
      return PLACE_PRACTICE;
  return PLACE_WORK_UP;
}

static void
append_act (SwBlockList *self, GtkWidget *acts, GtkWidget *button)
{
  gtk_box_append (GTK_BOX (acts), button);
  if (self->first_act == NULL)
    self->first_act = button;
}

static void
append_action (SwBlockList *self, GtkWidget *acts, const char *label, const char *action, const char *target)
{
  GtkWidget *button = sw_button_new (label);

  if (target != NULL)
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  append_act (self, acts, button);
}

static void
take_day_cb (GtkButton *button, gpointer day)
{
  g_signal_emit (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_BLOCK_LIST), signals[TAKE_DAY], 0,
                 (gint64) GPOINTER_TO_INT (day));
}

static void
append_day (SwBlockList *self, GtkWidget *acts, const SwFinding *finding)
{
  const SwArg *day = sw_finding_arg (finding, finding->code == SW_FINDING_SECOND_TOO_EARLY ? "limit" : "first");
  g_autofree char *words = day != NULL && day->type == SW_ARG_DAY ? sw_day_words ((SwDay) day->num) : NULL;
  g_autofree char *label = words != NULL ? g_strdup_printf (_("Take %s"), words) : NULL;
  GtkWidget *button;

  if (label == NULL)
    return;
  button = sw_button_new (label);
  g_signal_connect (button, "clicked", G_CALLBACK (take_day_cb), GINT_TO_POINTER ((int) day->num));
  append_act (self, acts, button);
}

static void
take_substance_cb (GtkButton *button, const char *pair)
{
  g_signal_emit (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_BLOCK_LIST), signals[TAKE_SUBSTANCE], 0, pair);
}

static void
stock_cb (GtkButton *button, const char *substance)
{
  g_signal_emit (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_BLOCK_LIST), signals[STOCK], 0, substance);
}

static void
append_with_text (SwBlockList *self, GtkWidget *acts, const char *label, GCallback callback, const char *text)
{
  GtkWidget *button = sw_button_new (label);

  g_signal_connect_data (button, "clicked", callback, g_strdup (text), (GClosureNotify) (GCallback) g_free, 0);
  append_act (self, acts, button);
}

/* Those of the group that fit; and a strength that does can always be stocked. */
static void
append_substances (SwBlockList *self, GtkWidget *acts, const SwFinding *finding, GHashTable *fitting)
{
  const char *const *pairs = finding->about != NULL ? g_hash_table_lookup (fitting, finding->about) : NULL;

  for (guint i = 0; pairs != NULL && pairs[i] != NULL; i++)
    {
      g_autofree char *label = g_strdup_printf (_("Take %s Instead of %s"), strchr (pairs[i], '=') + 1, finding->about);

      append_with_text (self, acts, label, G_CALLBACK (take_substance_cb), pairs[i]);
    }
  if (finding->code == SW_FINDING_NO_TABLET_FITS)
    {
      g_autofree char *label = g_strdup_printf (_("Stock Another Strength of %s…"), finding->about);

      append_with_text (self, acts, label, G_CALLBACK (stock_cb), finding->about);
    }
}

static void
label_read_cb (GtkButton *button, SwBlockList *self)
{
  g_signal_emit (self, signals[LABEL_READ], 0);
}

static void
append_own_act (SwBlockList *self, GtkWidget *acts, const SwFinding *finding, GHashTable *fitting)
{
  GtkWidget *button;

  if (finding->code == SW_FINDING_NO_TABLET_FITS || finding->code == SW_FINDING_NOT_LISTED)
    append_substances (self, acts, finding, fitting);
  else if (finding->code == SW_FINDING_NO_PLANNING_WEIGHT || finding->code == SW_FINDING_PLANNING_WEIGHT_OLD)
    append_action (self, acts, _("Weigh the Dog…"), "patient.weigh", NULL);
  else if (finding->code == SW_FINDING_XYLITOL_PLANNED)
    {
      button = sw_button_new (_("The Labels Were Read: No Xylitol"));
      g_signal_connect (button, "clicked", G_CALLBACK (label_read_cb), self);
      append_act (self, acts, button);
    }
  else
    append_day (self, acts, finding);
}

static gboolean
same_subject (const SwFinding *a, const SwFinding *b)
{
  return a->code == b->code && g_strcmp0 (a->about, b->about) == 0;
}

/* Two phases of one medicine that don't fit have one act. */
static gboolean
is_said (const GPtrArray *findings, guint n)
{
  for (guint i = 0; i < n; i++)
    if (same_subject (findings->pdata[i], findings->pdata[n]))
      return TRUE;
  return FALSE;
}

static GtkWidget *
acts_new (SwBlockList *self)
{
  GtkWidget *acts = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_add_css_class (acts, "acts");
  gtk_box_append (GTK_BOX (self), acts);
  return acts;
}

/* What is cured on this page has its act below it, what is cured elsewhere one way there for all. */
static void
append_finding (SwBlockList *self, const GPtrArray *findings, guint i, Place place, GHashTable *fitting)
{
  gtk_box_append (GTK_BOX (self), sw_finding_row_new (findings->pdata[i]));
  if (place == PLACE_HERE && !is_said (findings, i))
    append_own_act (self, acts_new (self), findings->pdata[i], fitting);
}

static void
append_place (SwBlockList *self, const GPtrArray *findings, Place place, GHashTable *fitting)
{
  gboolean any = FALSE;

  for (int rank = SW_RANK_REFUSAL; rank <= SW_RANK_NOTE; rank++)
    for (guint i = 0; i < findings->len; i++)
      {
        const SwFinding *finding = findings->pdata[i];

        if ((int) sw_finding_rank (finding) != rank || place_of (finding) != place)
          continue;
        if (!any)
          gtk_box_append (GTK_BOX (self), sw_quiet_new (_(titles[place])));
        any = TRUE;
        append_finding (self, findings, i, place, fitting);
      }
  if (any && place == PLACE_WORK_UP)
    append_action (self, acts_new (self), _("Go to Work-up"), "patient.step", "work-up");
  else if (any && place == PLACE_PRACTICE)
    append_action (self, acts_new (self), _("Go to Practice"), "win.page", "practice");
}

void
sw_block_list_set (SwBlockList *self, const GPtrArray *findings, GHashTable *fitting)
{
  GtkWidget *child;

  self->first_act = NULL;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_box_remove (GTK_BOX (self), child);
  for (Place place = PLACE_HERE; place < N_PLACES; place++)
    append_place (self, findings, place, fitting);
  gtk_widget_set_visible (GTK_WIDGET (self), findings->len > 0);
}

gboolean
sw_block_list_focus (SwBlockList *self)
{
  return self->first_act != NULL && gtk_widget_grab_focus (self->first_act);
}

static void
sw_block_list_class_init (SwBlockListClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  signals[TAKE_DAY]
      = g_signal_new ("take-day", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[TAKE_SUBSTANCE]
      = g_signal_new ("take-substance", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[STOCK] = g_signal_new ("stock", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[LABEL_READ] = g_signal_new ("label-read", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (class), "findings");
}

static void
sw_block_list_init (SwBlockList *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
}

GtkWidget *
sw_block_list_new (void)
{
  return g_object_new (SW_TYPE_BLOCK_LIST, NULL);
}
