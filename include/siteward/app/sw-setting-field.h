/* sw-setting-field.h: one setting of the practice as a field: what is kept, what is typed, and what is wrong with it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"
#include "sw-request.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Between what is typed and what is kept; both transfer full. `limit` is the field's own number (see each maker). */
typedef char *(*SwSettingParse) (const char *typed, gint64 limit, GError **error);
typedef char *(*SwSettingFormat) (const char *kept);

#define SW_TYPE_SETTING_FIELD (sw_setting_field_get_type ())
G_DECLARE_FINAL_TYPE (SwSettingField, sw_setting_field, SW, SETTING_FIELD, GtkWidget)

/* `otherwise`: what holds while nothing is set, in its kept form. */
GtkWidget *sw_setting_field_new (const char *key, const char *name, const char *otherwise, gint64 limit,
                                 SwSettingParse parse,
                                 SwSettingFormat format, int width_chars);

/* Shows what is kept now, unless something else was typed. */
void sw_setting_field_show (SwSettingField *self, const SwPractice *practice);
/* Adds the row that makes the setting what is typed; nothing where it is that already. FALSE: it can't be, and the
 * field says why. */
gboolean sw_setting_field_add (SwSettingField *self, const SwPractice *practice, SwRequest *request);
/* What was typed has been kept. */
void sw_setting_field_taken (SwSettingField *self);

G_END_DECLS
