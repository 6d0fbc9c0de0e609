/* sw-json.h: figures as JSON (RFC 8259), written only.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwJson:
 *
 * Writes one value, usually an object, in the order of the calls. Calls that would not make JSON (a value without a
 * key inside an object, a second value at the top, an end without its beginning) are programming errors and are
 * refused with a critical warning. Example: |[
 *   g_autoptr (SwJson) json = sw_json_new ();
 *   sw_json_begin_object (json, NULL);
 *   sw_json_int (json, "n", 32);
 *   sw_json_double (json, "estimate", 0.8125);
 *   sw_json_begin_array (json, "steps");
 *   sw_json_double (json, NULL, 1.5);
 *   sw_json_end (json);
 *   sw_json_end (json);
 *   g_autofree char *text = sw_json_steal (json);   // {"n":32,"estimate":0.8125,"steps":[1.5]}
 * ]|
 *
 * @key in all calls: the member's name inside an object, NULL elsewhere.
 */
typedef struct _SwJson SwJson;

SwJson *sw_json_new (void);
void sw_json_free (SwJson *json);

void sw_json_begin_object (SwJson *json, const char *key);
void sw_json_begin_array (SwJson *json, const char *key);

/* Ends the innermost object or array. */
void sw_json_end (SwJson *json);

/* Text with everything escaped that has to be; bytes that are not UTF-8 become U+FFFD. NULL is null. */
void sw_json_string (SwJson *json, const char *key, const char *value);
void sw_json_int (SwJson *json, const char *key, gint64 value);

/* The shortest digits that read back as the same double; an absent (not finite) value is null. */
void sw_json_double (SwJson *json, const char *key, double value);
void sw_json_bool (SwJson *json, const char *key, gboolean value);
void sw_json_null (SwJson *json, const char *key);

/* The finished text without a line feed, or NULL with a critical warning while something is still open. As new
 * afterwards. */
char *sw_json_steal (SwJson *json);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwJson, sw_json_free)

G_END_DECLS
