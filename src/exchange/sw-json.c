/* sw-json.c: figures as JSON.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-json.h"

#include "sw-number-private.h"

#include <math.h>

struct _SwJson
{
  GString *text;
  GString *open;   /* what is open, innermost last: '{' or '[' */
  gboolean filled; /* the innermost already holds something, or the value at the top is there */
};

SwJson *
sw_json_new (void)
{
  SwJson *json = g_new0 (SwJson, 1);

  json->text = g_string_new (NULL);
  json->open = g_string_new (NULL);
  return json;
}

void
sw_json_free (SwJson *json)
{
  if (!json)
    return;
  g_string_free (json->text, TRUE);
  g_string_free (json->open, TRUE);
  g_free (json);
}

static void
append_character (GString *out, gunichar c)
{
  switch (c)
    {
    case '"': g_string_append (out, "\\\""); break;
    case '\\': g_string_append (out, "\\\\"); break;
    case '\b': g_string_append (out, "\\b"); break;
    case '\f': g_string_append (out, "\\f"); break;
    case '\n': g_string_append (out, "\\n"); break;
    case '\r': g_string_append (out, "\\r"); break;
    case '\t': g_string_append (out, "\\t"); break;
    default:
      if (c < 0x20 || c == 0x7f)
        g_string_append_printf (out, "\\u%04x", c);
      else
        g_string_append_unichar (out, c);
    }
}

static void
append_quoted (GString *out, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);

  g_string_append_c (out, '"');
  for (const char *at = valid; *at; at = g_utf8_next_char (at))
    append_character (out, g_utf8_get_char (at));
  g_string_append_c (out, '"');
}

/* Comma and key before the next value; FALSE where no such value can stand. */
static gboolean
begin_value (SwJson *json, const char *key)
{
  char inside = json->open->len > 0 ? json->open->str[json->open->len - 1] : 0;

  g_return_val_if_fail ((key != NULL) == (inside == '{'), FALSE);
  g_return_val_if_fail (inside || !json->filled, FALSE);
  if (json->filled)
    g_string_append_c (json->text, ',');
  if (key)
    {
      append_quoted (json->text, key);
      g_string_append_c (json->text, ':');
    }
  json->filled = TRUE;
  return TRUE;
}

static void
begin (SwJson *json, const char *key, char bracket)
{
  if (!begin_value (json, key))
    return;
  g_string_append_c (json->text, bracket);
  g_string_append_c (json->open, bracket);
  json->filled = FALSE;
}

void
sw_json_begin_object (SwJson *json, const char *key)
{
  begin (json, key, '{');
}

void
sw_json_begin_array (SwJson *json, const char *key)
{
  begin (json, key, '[');
}

void
sw_json_end (SwJson *json)
{
  g_return_if_fail (json->open->len > 0);
  g_string_append_c (json->text, json->open->str[json->open->len - 1] == '{' ? '}' : ']');
  g_string_truncate (json->open, json->open->len - 1);
  json->filled = TRUE;
}

void
sw_json_string (SwJson *json, const char *key, const char *value)
{
  if (!begin_value (json, key))
    return;
  if (value)
    append_quoted (json->text, value);
  else
    g_string_append (json->text, "null");
}

void
sw_json_int (SwJson *json, const char *key, gint64 value)
{
  if (begin_value (json, key))
    g_string_append_printf (json->text, "%" G_GINT64_FORMAT, value);
}

void
sw_json_double (SwJson *json, const char *key, double value)
{
  if (!begin_value (json, key))
    return;
  if (isfinite (value))
    sw_number_append (json->text, value);
  else
    g_string_append (json->text, "null");
}

void
sw_json_bool (SwJson *json, const char *key, gboolean value)
{
  if (begin_value (json, key))
    g_string_append (json->text, value ? "true" : "false");
}

void
sw_json_null (SwJson *json, const char *key)
{
  if (begin_value (json, key))
    g_string_append (json->text, "null");
}

char *
sw_json_steal (SwJson *json)
{
  g_return_val_if_fail (json->open->len == 0 && json->filled, NULL);

  char *text = g_string_free (json->text, FALSE);
  json->text = g_string_new (NULL);
  json->filled = FALSE;
  return text;
}
