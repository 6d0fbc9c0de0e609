/* sw-document.c: what every document has
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-document.h"
#include "sw-reader-private.h"

#include "sw-error.h"
#include "sw-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const mark_codes[] = { "seen", "second-hand", "memory", "practice", "ours", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (mark_codes) == SW_N_FIGURE_MARKS + 1);

static const char *const contradiction_codes[] = {
  "malformed",
  "unknown-element",
  "missing-attribute",
  "missing-figure",
  "bad-value",
  "duplicate-figure",
  "duplicate-id",
  "unknown-figure",
  "missing-mark",
  "unknown-mark",
  "missing-source",
  "unknown-source",
  "unwanted-source",
  "unit-mismatch",
  "bare-unit",
  "least-over-most",
  "dose-over-limit",
  "tiers-overlap",
  "tier-gap",
  "unknown-rule",
  "unknown-medicine",
  "out-of-range",
  "interval-mismatch",
  "day-outside-course",
  "days-reversed",
  "phases-overlap",
  "absent-group",
  "empty-group",
  "gate-unreachable",
  "unknown-region",
  "unknown-question",
  "form-mismatch",
  "unknown-class",
  NULL,
};

G_STATIC_ASSERT (G_N_ELEMENTS (contradiction_codes) == SW_N_CONTRADICTIONS + 1);

const char *
sw_figure_mark_code (SwFigureMark mark)
{
  g_return_val_if_fail ((guint) mark < SW_N_FIGURE_MARKS, NULL);

  return mark_codes[mark];
}

int
sw_figure_mark_from_code (const char *code)
{
  return sw_code_index (mark_codes, code);
}

const char *
sw_contradiction_code (SwContradiction kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_CONTRADICTIONS, NULL);

  return contradiction_codes[kind];
}

int
sw_contradiction_of_error (const GError *error)
{
  const char *bracket;
  g_autofree char *code = NULL;

  if (!g_error_matches (error, SW_ERROR, SW_ERROR_DOCUMENT) || !g_str_has_suffix (error->message, "]"))
    return -1;
  bracket = strrchr (error->message, '[');
  if (bracket == NULL)
    return -1;
  code = g_strndup (bracket + 1, strlen (bracket) - 2);
  return sw_code_index (contradiction_codes, code);
}

void
sw_document_refuse (GError **error, const char *file, int line, int column, const char *key, SwContradiction kind,
                    const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, SW_ERROR, SW_ERROR_DOCUMENT, "%s:%d:%d: %s%s%s%s [%s]", file, line, column, key,
               *key != '\0' ? ": " : "", sentence, g_str_has_suffix (sentence, ".") ? "" : ".",
               contradiction_codes[kind]);
}

void
sw_document_head_clear (SwDocumentHead *head)
{
  g_clear_pointer (&head->id, g_free);
  g_clear_pointer (&head->revision, g_free);
  g_clear_pointer (&head->title, g_free);
  g_clear_pointer (&head->name, g_free);
  g_clear_pointer (&head->digest, g_free);
  g_clear_pointer (&head->bytes, g_bytes_unref);
  g_clear_pointer (&head->sources, g_ptr_array_unref);
  g_clear_pointer (&head->figures, g_ptr_array_unref);
}

const SwFigure *
sw_document_figure (const SwDocumentHead *head, const char *name)
{
  for (guint i = 0; i < head->figures->len; i++)
    {
      const SwFigure *figure = g_ptr_array_index (head->figures, i);

      if (g_str_equal (figure->name, name))
        return figure;
    }
  return NULL;
}

const char *
sw_document_source_title (const SwDocumentHead *head, const SwFigure *figure)
{
  if (figure->source == NULL)
    return figure->mark == SW_FIGURE_PRACTICE ? _ ("common practice") : _ ("a rule of this program");
  for (guint i = 0; i < head->sources->len; i++)
    {
      const SwSource *source = g_ptr_array_index (head->sources, i);

      if (g_str_equal (source->id, figure->source))
        return source->title;
    }
  return _ ("source not recorded");
}

gboolean
sw_document_adoptable (const SwDocumentHead *head)
{
  for (guint i = 0; i < head->figures->len; i++)
    {
      const SwFigure *figure = g_ptr_array_index (head->figures, i);

      if (*figure->value == '\0')
        return FALSE;
    }
  return TRUE;
}

GPtrArray *
sw_document_figures_to_tick (const SwDocumentHead *head)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < head->figures->len; i++)
    {
      SwFigure *figure = g_ptr_array_index (head->figures, i);

      if (figure->mark != SW_FIGURE_SEEN)
        g_ptr_array_add (found, figure);
    }
  return found;
}

GPtrArray *
sw_document_figures_to_fill (const SwDocumentHead *head)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < head->figures->len; i++)
    {
      SwFigure *figure = g_ptr_array_index (head->figures, i);

      if (*figure->value == '\0')
        g_ptr_array_add (found, figure);
    }
  return found;
}
