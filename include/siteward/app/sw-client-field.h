/* sw-client-field.h: choose a client who is registered already, or enter a new one
 *
 * Typing a name offers the clients whose names begin so; choosing one fixes it. Without a choice, name, telephone and
 * address make a new client.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_CLIENT_FIELD (sw_client_field_get_type ())
G_DECLARE_FINAL_TYPE (SwClientField, sw_client_field, SW, CLIENT_FIELD, GtkWidget)

GtkWidget *sw_client_field_new (SwRecord *record);
/* What is on record now: its fields are corrected, not another client's. */
void sw_client_field_set_details (SwClientField *self, const SwClientDetails *details);
/* A new client's details without its client; NULL if a registered one is chosen or nothing is filled in. (transfer
 * full) */
SwClientDetails *sw_client_field_make_details (SwClientField *self);
/* 0: none is chosen. */
gint64 sw_client_field_get_chosen (SwClientField *self);
gboolean sw_client_field_is_filled (SwClientField *self);

G_END_DECLS
