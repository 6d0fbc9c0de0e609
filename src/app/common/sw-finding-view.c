/* sw-finding-view.c: findings and errors as words beside what they concern
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-finding-view.h"

#include "sw-form.h"

#include <glib/gi18n-lib.h>

struct _SwFindingView
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (SwFindingView, sw_finding_view, GTK_TYPE_WIDGET)

/* A shape for each severity, so that the colour only repeats it; css has a class of the same name. */
static const struct
{
  const char *shape;
  const char *css;
} looks[SW_N_SEVERITIES] = {
  [SW_MEETS] = { "✓", "meets" },
  [SW_NOTE] = { "•", "note" },
  [SW_VET_DECIDES] = { "◆", "decides" },
  [SW_NOT_KNOWN] = { "?", "unknown" },
  [SW_STOP] = { "■", "stop" },
};

static GtkWidget *
wrapping_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  gtk_widget_set_hexpand (label, TRUE);

  return label;
}

GtkWidget *
sw_severity_new (SwSeverity severity)
{
  g_autofree char *text = g_strdup_printf ("%s %s", looks[severity].shape, sw_severity_name (severity));
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 13);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_widget_add_css_class (label, "severity");
  gtk_widget_add_css_class (label, looks[severity].css);

  return label;
}

static GtkWidget *
row_new (SwSeverity severity, const char *sentence, const char *next, const char *basis)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_add_css_class (row, "finding");
  gtk_box_append (GTK_BOX (row), sw_severity_new (severity));
  gtk_box_append (GTK_BOX (words), wrapping_label (sentence));
  if (next != NULL)
    gtk_box_append (GTK_BOX (words), wrapping_label (next));
  if (basis != NULL)
    gtk_box_append (GTK_BOX (words), sw_quiet_new (basis));
  gtk_box_append (GTK_BOX (row), words);

  return row;
}

GtkWidget *
sw_finding_row_new (const SwFinding *finding)
{
  g_autofree char *sentence = sw_finding_sentence (finding);
  g_autofree char *next = sw_finding_next (finding);
  g_autofree char *basis = NULL;

  if (finding->source != NULL && finding->mark != NULL)
    basis = g_strdup_printf ("%s [%s]", finding->source, finding->mark);
  else if (finding->mark != NULL)
    basis = g_strdup_printf ("[%s]", finding->mark);

  return row_new (finding->severity, sentence, next, basis);
}

static void
sw_finding_view_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_finding_view_parent_class)->dispose (object);
}

static void
sw_finding_view_class_init (SwFindingViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_finding_view_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "findings");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
sw_finding_view_init (SwFindingView *self)
{
  GtkBoxLayout *layout = GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self)));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (layout, 6);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

GtkWidget *
sw_finding_view_new (void)
{
  return g_object_new (SW_TYPE_FINDING_VIEW, NULL);
}

static void
add_row (SwFindingView *self, GtkWidget *row)
{
  gtk_widget_set_parent (row, GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
}

void
sw_finding_view_set_findings (SwFindingView *self, const GPtrArray *findings, gboolean all)
{
  sw_finding_view_clear (self);
  for (int rank = SW_RANK_REFUSAL; rank <= (int) (all ? SW_RANK_MEETS : SW_RANK_NOTE); rank++)
    for (guint i = 0; findings != NULL && i < findings->len; i++)
      {
        const SwFinding *finding = findings->pdata[i];

        if ((int) sw_finding_rank (finding) == rank)
          add_row (self, sw_finding_row_new (finding));
      }
}

void
sw_finding_view_set_error (SwFindingView *self, const GError *error)
{
  sw_finding_view_set_sentence (self, SW_STOP, error->message, NULL);
}

void
sw_finding_view_set_sentence (SwFindingView *self, SwSeverity severity, const char *sentence, const char *next)
{
  sw_finding_view_clear (self);
  add_row (self, row_new (severity, sentence, next, NULL));
}

void
sw_finding_view_clear (SwFindingView *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

gboolean
sw_finding_view_is_empty (SwFindingView *self)
{
  return gtk_widget_get_first_child (GTK_WIDGET (self)) == NULL;
}
