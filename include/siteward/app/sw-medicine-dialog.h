/* sw-medicine-dialog.h: record a medicine that the dog takes or took from elsewhere, or correct it
 *
 * Known substances are offered; any other can be typed, and an NSAID whose name nobody knows has an entry of its own.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-page-context.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* old NULL: a new one. Returns the dialog's window. (transfer none) */
GtkWidget *sw_medicine_dialog_show (GtkWidget *parent, SwPageContext *context, const SwMedicineTaken *old);

/* "unknown NSAID" for SW_UNKNOWN_NSAID, else the substance as it is. */
const char *sw_substance_name (const char *substance);

/* The fields, for tests. */
typedef struct
{
  GtkWidget *known;     /* drop-down of substances */
  GtkWidget *other;     /* free text */
  GtkWidget *product;
  GtkWidget *dose;      /* SwQuantityEntry, mg */
  GtkWidget *per_day;   /* SwQuantityEntry */
  GtkWidget *first_day; /* SwQuantityEntry */
  GtkWidget *last_day;  /* SwQuantityEntry */
  GtkWidget *goes_on;
  GtkWidget *form;
  GtkWidget *single;
  GtkWidget *xylitol_free;
  GtkWidget *note;
  GtkWidget *save;
} SwMedicineFields;

const SwMedicineFields *sw_medicine_dialog_fields (GtkWidget *window);

G_END_DECLS
