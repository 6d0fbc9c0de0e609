/* sw-node.c: a small XML tree in which every element knows where it begins
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-node-private.h"
#include "sw-reader-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_BYTES (1024 * 1024)
#define MOST_DEPTH 16

/* GMarkup knows where it has come to, not where a tag began. So it is fed from "<" to "<": each piece begins a tag. */
typedef struct
{
  SwNode *root;
  GPtrArray *open;       /* SwNode, outermost first, borrowed */
  int line, column;      /* where the piece being fed begins */
} Builder;

static SwNode *
node_new (const char *name, const char **names, const char **values, int line, int column)
{
  SwNode *node = g_new0 (SwNode, 1);
  GPtrArray *attributes = g_ptr_array_new ();

  for (guint i = 0; names[i] != NULL; i++)
    {
      g_ptr_array_add (attributes, g_strdup (names[i]));
      g_ptr_array_add (attributes, g_strdup (values[i]));
    }
  g_ptr_array_add (attributes, NULL);
  node->name = g_strdup (name);
  node->attributes = (char **) g_ptr_array_free (attributes, FALSE);
  node->text = g_string_new (NULL);
  node->line = line;
  node->column = column;
  node->children = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_node_free);
  return node;
}

void
sw_node_free (SwNode *node)
{
  if (node == NULL)
    return;
  g_free (node->name);
  g_strfreev (node->attributes);
  g_string_free (node->text, TRUE);
  g_ptr_array_unref (node->children);
  g_free (node);
}

const char *
sw_node_attribute (const SwNode *node, const char *name)
{
  for (char **pair = node->attributes; *pair != NULL; pair += 2)
    if (g_str_equal (pair[0], name))
      return pair[1];
  return NULL;
}

static void
start_element_cb (GMarkupParseContext *context, const char *name, const char **names, const char **values,
                  gpointer data, GError **error)
{
  Builder *builder = data;
  SwNode *node, *parent;

  if (builder->open->len == MOST_DEPTH)
    {
      g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_INVALID_CONTENT,
                   _ ("elements lie more than %d deep in one another"), MOST_DEPTH);
      return;
    }
  if (builder->root != NULL && builder->open->len == 0)
    {
      g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_INVALID_CONTENT, _ ("a document has one outermost element"));
      return;
    }
  node = node_new (name, names, values, builder->line, builder->column);
  parent = builder->open->len > 0 ? g_ptr_array_index (builder->open, builder->open->len - 1) : NULL;
  if (parent != NULL)
    g_ptr_array_add (parent->children, node);
  else
    builder->root = node;
  g_ptr_array_add (builder->open, node);
}

static void
end_element_cb (GMarkupParseContext *context, const char *name, gpointer data, GError **error)
{
  Builder *builder = data;

  g_ptr_array_remove_index (builder->open, builder->open->len - 1);
}

static void
text_cb (GMarkupParseContext *context, const char *text, gsize length, gpointer data, GError **error)
{
  Builder *builder = data;
  SwNode *node = builder->open->len > 0 ? g_ptr_array_index (builder->open, builder->open->len - 1) : NULL;

  if (node != NULL)
    g_string_append_len (node->text, text, (gssize) length);
}

static void
passthrough_cb (GMarkupParseContext *context, const char *text, gsize length, gpointer data, GError **error)
{
  if (g_str_has_prefix (text, "<!DOCTYPE"))
    g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_INVALID_CONTENT,
                 _ ("a document type is not read here: remove it"));
}

static void
advance (Builder *builder, const char *piece, gsize length)
{
  for (gsize i = 0; i < length; i++)
    if (piece[i] == '\n')
      {
        builder->line++;
        builder->column = 1;
      }
    else if ((piece[i] & 0xC0) != 0x80)
      builder->column++;
}

static gboolean
feed (Builder *builder, GMarkupParseContext *context, const char *data, gsize size, GError **error)
{
  const char *end = data;
  gsize start = 0;

  if (!g_utf8_validate_len (data, size, &end))
    {
      advance (builder, data, (gsize) (end - data));
      g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_BAD_UTF8, _ ("this is not text in UTF-8"));
      return FALSE;
    }
  while (start < size)
    {
      const char *next = memchr (data + start + 1, '<', size - start - 1);
      gsize length = next != NULL ? (gsize) (next - data) - start : size - start;

      if (!g_markup_parse_context_parse (context, data + start, (gssize) length, error))
        return FALSE;
      advance (builder, data + start, length);
      start += length;
    }
  if (!g_markup_parse_context_end_parse (context, error))
    return FALSE;
  if (builder->root == NULL)
    g_set_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_EMPTY, _ ("the document holds no element"));
  return builder->root != NULL;
}

/* GMarkup's own message begins with a line and character of its own; ours stand before it already. */
static const char *
without_position (const char *message)
{
  const char *colon = g_str_has_prefix (message, "Error on line") ? strstr (message, ": ") : NULL;

  return colon != NULL ? colon + 2 : message;
}

SwNode *
sw_node_parse (const char *file, GBytes *bytes, GError **error)
{
  static const GMarkupParser parser = { start_element_cb, end_element_cb, text_cb, passthrough_cb, NULL };
  g_autoptr (GPtrArray) open = g_ptr_array_new ();
  g_autoptr (GError) local = NULL;
  Builder builder = { NULL, open, 1, 1 };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, &builder, NULL);
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);

  if (size > MOST_BYTES)
    sw_document_refuse (error, file, 1, 1, "", SW_CONTRADICTION_MALFORMED,
                        _ ("the document has %zu bytes, more than the %d that are read"), size,
                        MOST_BYTES);
  else if (feed (&builder, context, data, size, &local))
    return builder.root;
  else
    sw_document_refuse (error, file, builder.line, builder.column, "", SW_CONTRADICTION_MALFORMED, "%s",
                        without_position (local->message));
  sw_node_free (builder.root);
  return NULL;
}
