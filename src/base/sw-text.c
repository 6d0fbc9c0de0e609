/* sw-text.c: search folding, canonical text and code names
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-text.h"

#include <string.h>

/* Letters that Unicode doesn't take apart, but that people type without their stroke or as two. */
static const char *
plain_letter (gunichar letter)
{
  switch (letter)
    {
    case 0x00E6:
      return "ae";
    case 0x00F0:
    case 0x0111:
      return "d";
    case 0x00F8:
      return "o";
    case 0x00FE:
      return "th";
    case 0x0131:
      return "i";
    case 0x0142:
      return "l";
    case 0x0153:
      return "oe";
    default:
      return NULL;
    }
}

static void
append_folded (GString *out, gunichar letter)
{
  const char *plain = plain_letter (letter);

  if (plain != NULL)
    g_string_append (out, plain);
  else if (g_unichar_isspace (letter))
    {
      if (out->len > 0 && out->str[out->len - 1] != ' ')
        g_string_append_c (out, ' ');
    }
  else if (!g_unichar_ismark (letter))
    g_string_append_unichar (out, letter);
}

char *
sw_text_fold (const char *text)
{
  g_autofree char *lower = g_utf8_casefold (text, -1);
  g_autofree char *apart = g_utf8_normalize (lower, -1, G_NORMALIZE_ALL);
  GString *out = g_string_new (NULL);

  for (const char *p = apart; p != NULL && *p != '\0'; p = g_utf8_next_char (p))
    append_folded (out, g_utf8_get_char (p));
  if (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  return g_string_free (out, FALSE);
}

char *
sw_text_excerpt (const char *text, guint most)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_new (NULL);

  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar letter = g_utf8_get_char (p);

      if (most-- == 0)
        {
          g_string_append (out, "…");
          break;
        }
      g_string_append_unichar (out, g_unichar_isprint (letter) ? letter : ' ');
    }
  return g_string_free (out, FALSE);
}

void
sw_text_append_bytes (GString *out, const void *data, gsize length)
{
  g_string_append_printf (out, "%" G_GSIZE_FORMAT ":", length);
  g_string_append_len (out, data, (gssize) length);
  g_string_append_c (out, ',');
}

void
sw_text_append_field (GString *out, const char *value)
{
  if (value == NULL)
    g_string_append (out, "-,");
  else
    sw_text_append_bytes (out, value, strlen (value));
}

void
sw_text_append_int (GString *out, gint64 value)
{
  char digits[24];

  g_snprintf (digits, sizeof digits, "%" G_GINT64_FORMAT, value);
  sw_text_append_field (out, digits);
}

int
sw_code_index (const char *const *codes, const char *code)
{
  for (int i = 0; code != NULL && codes[i] != NULL; i++)
    if (g_str_equal (codes[i], code))
      return i;
  return -1;
}
