/* sw-replan-view.c: a change of the plan in words before it is made
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-replan-view-private.h"

#include "sw-finding-view.h"

#include <glib/gi18n-lib.h>

struct _SwReplanView
{
  GtkBox parent_instance;

  GtkLabel *changes;
  SwFindingView *findings;
};

G_DEFINE_FINAL_TYPE (SwReplanView, sw_replan_view, GTK_TYPE_BOX)

static void
sw_replan_view_class_init (SwReplanViewClass *class)
{
}

static void
sw_replan_view_init (SwReplanView *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->changes = GTK_LABEL (gtk_label_new (NULL));
  self->findings = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_label_set_xalign (self->changes, 0);
  gtk_label_set_wrap (self->changes, TRUE);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->changes));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->findings));
}

GtkWidget *
sw_replan_view_new (void)
{
  return g_object_new (SW_TYPE_REPLAN_VIEW, NULL);
}

static char *
words_of (const SwReplan *replan, gint64 roles)
{
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < replan->changes->len; i++)
    g_string_append_printf (words, "%s• %s", i > 0 ? "\n" : "", (const char *) replan->changes->pdata[i]);
  if (replan->vet_only && (roles & SW_ROLE_VET) == 0)
    g_string_append_printf (words, "%s• %s", words->len > 0 ? "\n" : "", _("Only a vet may do this."));

  return g_string_free (words, FALSE);
}

void
sw_replan_view_show (SwReplanView *self, const SwReplan *replan, gint64 roles)
{
  g_autofree char *words = replan != NULL ? words_of (replan, roles) : g_strdup ("");

  gtk_label_set_text (self->changes, words);
  gtk_widget_set_visible (GTK_WIDGET (self->changes), words[0] != '\0');
  if (replan != NULL)
    sw_finding_view_set_findings (self->findings, replan->findings, FALSE);
  else
    sw_finding_view_clear (self->findings);
}
