/* sw-wedge-guard.h: keeps the burst of a caliper that types like a keyboard from pressing anything
 *
 * A digital caliper sends a number and Enter to whatever has the focus. The guard watches a window's keys before
 * anything else sees them:
 *   Enter within 500 ms of a digit is swallowed, unless the focus is in a quantity entry or a text of many lines
 *   a digit outside all entries is handed to the cell that `target` names (the first empty one), which gets the focus
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_WEDGE_MILLISECONDS 500 /* [ours] */

typedef enum
{
  SW_WEDGE_PASS,
  SW_WEDGE_SWALLOW,
  SW_WEDGE_POINT, /* to the first empty cell */
} SwWedgeAnswer;

typedef struct
{
  gboolean seen_digit;
  guint32 digit_at; /* event time, ms */
} SwWedge;

/* What is to become of one key press: pure, so that it can be tested without a keyboard. `focus` may be NULL. */
SwWedgeAnswer sw_wedge_key (SwWedge *wedge, guint keyval, GdkModifierType modifiers, guint32 time, GtkWidget *focus);

/* The cell that a digit outside entries belongs to; NULL: none. */
typedef GtkWidget *(*SwWedgeTarget) (GtkWidget *window, gpointer data);

/* For the life of the window. `target` may be NULL: digits outside entries then go nowhere. */
void sw_wedge_guard_attach (GtkWidget *window, SwWedgeTarget target, gpointer data);

G_END_DECLS
