/* sw-expander.c: a part of the page that is folded away until it is wanted
 *
 * GTK 4.8 does not name an expander by its label.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-expander-private.h"

GtkWidget *
sw_expander_new (const char *words)
{
  GtkWidget *expander = gtk_expander_new (words);

  gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_set_hexpand (expander, TRUE);

  return expander;
}
