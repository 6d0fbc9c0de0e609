/* sw-reader.c: reads head, sources and figures of a document, and refuses by name
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-reader-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
source_free (SwSource *source)
{
  g_free (source->id);
  g_free (source->title);
  g_free (source);
}

static void
figure_free (SwFigure *figure)
{
  g_free (figure->name);
  g_free (figure->value);
  g_free (figure);
}

void
sw_reader_refuse (SwReader *reader, const SwNode *at, const char *key, SwContradiction kind, const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  if (reader->error != NULL)
    return;
  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  sw_document_refuse (&reader->error, reader->head->name, at->line, at->column, key, kind, "%s", sentence);
}

void
sw_reader_refuse_figure (SwReader *reader, const SwFigure *figure, SwContradiction kind, const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  if (reader->error != NULL)
    return;
  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  sw_document_refuse (&reader->error, reader->head->name, figure->line, figure->column, figure->name, kind, "%s",
                      sentence);
}

const char *
sw_reader_id (SwReader *reader, const SwNode *node, const char *attribute)
{
  const char *id = sw_node_attribute (node, attribute);

  if (id == NULL)
    sw_reader_refuse (reader, node, attribute, SW_CONTRADICTION_MISSING_ATTRIBUTE,
                      _ ("<%s> needs the attribute %s"), node->name, attribute);
  else if (*id == '\0' || strspn (id, "abcdefghijklmnopqrstuvwxyz0123456789-") != strlen (id))
    sw_reader_refuse (reader, node, attribute, SW_CONTRADICTION_BAD_VALUE,
                      _ ("“%s” is no code: write lower-case letters, digits and hyphens"), id);
  return id != NULL ? id : "";
}

gboolean
sw_reader_flag (SwReader *reader, const SwNode *node, const char *attribute)
{
  const char *value = sw_node_attribute (node, attribute);

  if (value != NULL && !g_str_equal (value, "yes") && !g_str_equal (value, "no"))
    sw_reader_refuse (reader, node, attribute, SW_CONTRADICTION_BAD_VALUE, _ ("“%s” is neither yes nor no"), value);
  return g_strcmp0 (value, "yes") == 0;
}

void
sw_reader_only (SwReader *reader, const SwNode *node, const char *const *attributes)
{
  for (char **pair = node->attributes; *pair != NULL; pair += 2)
    if (!g_strv_contains (attributes, pair[0]))
      sw_reader_refuse (reader, node, pair[0], SW_CONTRADICTION_UNKNOWN_ELEMENT,
                        _ ("the attribute %s has no meaning in <%s>"), pair[0], node->name);
}

static void
read_source (SwReader *reader, const SwNode *node)
{
  SwSource *source = g_new0 (SwSource, 1);
  const char *title = sw_node_attribute (node, "title");

  sw_reader_only (reader, node, (const char *const[]){ "id", "title", NULL });
  source->id = g_strdup (sw_reader_id (reader, node, "id"));
  source->title = g_strdup (title != NULL ? title : "");
  if (*source->title == '\0')
    sw_reader_refuse (reader, node, "title", SW_CONTRADICTION_MISSING_ATTRIBUTE,
                      _ ("the source %s needs a title that a reader can find it by"), source->id);
  for (guint i = 0; i < reader->head->sources->len; i++)
    {
      const SwSource *other = g_ptr_array_index (reader->head->sources, i);

      if (g_str_equal (other->id, source->id))
        sw_reader_refuse (reader, node, source->id, SW_CONTRADICTION_DUPLICATE_ID, _ ("the source %s is listed twice"),
                          source->id);
    }
  g_ptr_array_add (reader->head->sources, source);
}

static void
read_sources (SwReader *reader)
{
  SwNode *list = sw_reader_child (reader, reader->root, "sources");
  g_autoptr (GPtrArray) nodes = NULL;

  if (list == NULL)
    return;
  nodes = sw_reader_children (reader, list, "source");
  for (guint i = 0; i < nodes->len; i++)
    read_source (reader, g_ptr_array_index (nodes, i));
}

static gboolean
is_listed (const SwDocumentHead *head, const char *id)
{
  for (guint i = 0; i < head->sources->len; i++)
    if (g_str_equal (((const SwSource *) g_ptr_array_index (head->sources, i))->id, id))
      return TRUE;
  return g_str_equal (id, SW_SOURCE_NOT_RECORDED);
}

/* Seen, second-hand and memory need a source; practice and ours have none. */
static void
check_source (SwReader *reader, const SwNode *node, SwFigure *figure, const char *source)
{
  gboolean needs = figure->mark <= SW_FIGURE_MEMORY;

  figure->source = g_intern_string (source);
  if (needs && source == NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_MISSING_SOURCE,
                             _ ("the mark %s needs a source: name one, or write %s for second-hand and memory"),
                             sw_figure_mark_code (figure->mark), SW_SOURCE_NOT_RECORDED);
  else if (needs && figure->mark == SW_FIGURE_SEEN && g_str_equal (source, SW_SOURCE_NOT_RECORDED))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_MISSING_SOURCE,
                             _ ("what was seen was seen somewhere: name the source, or mark it second-hand"));
  else if (!needs && source != NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNWANTED_SOURCE,
                             _ ("the mark %s has no source: leave it out, or mark the figure otherwise"),
                             sw_figure_mark_code (figure->mark));
  else if (needs && !is_listed (reader->head, source))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_SOURCE,
                             _ ("the source %s is not listed under <sources>"), source);
}

static void
check_mark (SwReader *reader, const SwNode *node, SwFigure *figure)
{
  const char *mark = sw_node_attribute (node, "mark");
  int code = sw_figure_mark_from_code (mark);

  if (mark == NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_MISSING_MARK,
                             _ ("the figure needs a mark: seen, second-hand, memory, practice or ours"));
  else if (code < 0)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_MARK,
                             _ ("“%s” is no mark: write seen, second-hand, memory, practice or ours"), mark);
  else
    {
      figure->mark = (SwFigureMark) code;
      check_source (reader, node, figure, sw_node_attribute (node, "source"));
    }
}

static void
read_figure (SwReader *reader, SwNode *node, const char *path)
{
  const char *name = sw_node_attribute (node, "name"), *value = sw_node_attribute (node, "value");
  SwFigure *figure;

  sw_reader_only (reader, node, (const char *const[]){ "name", "value", "mark", "source", NULL });
  if (name == NULL || value == NULL)
    {
      sw_reader_refuse (reader, node, name != NULL ? name : "figure", SW_CONTRADICTION_MISSING_ATTRIBUTE,
                        _ ("<figure> needs a name and a value; an empty value is one to be filled in"));
      return;
    }
  figure = g_new0 (SwFigure, 1);
  figure->name = g_strconcat (path, name, NULL);
  figure->value = g_strstrip (g_strdup (value));
  figure->line = node->line;
  figure->column = node->column;
  if (sw_document_figure (reader->head, figure->name) != NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DUPLICATE_FIGURE, _ ("the figure stands there twice"));
  g_ptr_array_add (reader->head->figures, figure);
  node->figure = figure;
  check_mark (reader, node, figure);
}

/* What an element adds to the names of the figures in it: its id or substance, or its number among others like it. */
static char *
path_part (const SwNode *node, guint number)
{
  const char *id = sw_node_attribute (node, "id"), *substance = sw_node_attribute (node, "substance");

  if (id != NULL || substance != NULL)
    return g_strdup_printf ("%s/", id != NULL ? id : substance);
  if (g_str_equal (node->name, "tier") || g_str_equal (node->name, "phase"))
    return g_strdup_printf ("%s-%u/", node->name, number);
  return g_strdup ("");
}

static guint
number_among (const SwNode *parent, guint index)
{
  const SwNode *node = g_ptr_array_index (parent->children, index);
  guint number = 0;

  for (guint i = 0; i <= index; i++)
    number += g_str_equal (((const SwNode *) g_ptr_array_index (parent->children, i))->name, node->name);
  return number;
}

static void
read_figures (SwReader *reader, SwNode *parent, const char *path)
{
  for (guint i = 0; i < parent->children->len; i++)
    {
      SwNode *node = g_ptr_array_index (parent->children, i);
      g_autofree char *part = path_part (node, number_among (parent, i)), *below = g_strconcat (path, part, NULL);

      if (g_str_equal (node->name, "figure"))
        read_figure (reader, node, path);
      else if (!g_str_equal (node->name, "sources"))
        read_figures (reader, node, below);
    }
}

static void
read_root (SwReader *reader, const char *expected, const char *const *attributes)
{
  g_autoptr (GPtrArray) known = g_ptr_array_new ();
  const char *title = sw_node_attribute (reader->root, "title");

  if (!g_str_equal (reader->root->name, expected))
    sw_reader_refuse (reader, reader->root, reader->root->name, SW_CONTRADICTION_MALFORMED,
                      _ ("the document is <%s>, and <%s> was expected"), reader->root->name, expected);
  g_ptr_array_add (known, (gpointer) "id");
  g_ptr_array_add (known, (gpointer) "revision");
  g_ptr_array_add (known, (gpointer) "title");
  for (; *attributes != NULL; attributes++)
    g_ptr_array_add (known, (gpointer) *attributes);
  g_ptr_array_add (known, NULL);
  sw_reader_only (reader, reader->root, (const char *const *) known->pdata);
  reader->head->id = g_strdup (sw_reader_id (reader, reader->root, "id"));
  reader->head->revision = g_strdup (sw_reader_id (reader, reader->root, "revision"));
  reader->head->title = g_strdup (title != NULL ? title : "");
  if (*reader->head->title == '\0')
    sw_reader_refuse (reader, reader->root, "title", SW_CONTRADICTION_MISSING_ATTRIBUTE,
                      _ ("<%s> needs the attribute title"), expected);
}

void
sw_reader_init (SwReader *reader, SwDocumentHead *head, SwDocumentKind kind, const char *name, GBytes *bytes,
                const char *const *attributes)
{
  head->kind = kind;
  head->name = g_strdup (name);
  head->bytes = g_bytes_ref (bytes);
  head->digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  head->sources = g_ptr_array_new_with_free_func ((GDestroyNotify) source_free);
  head->figures = g_ptr_array_new_with_free_func ((GDestroyNotify) figure_free);
  *reader = (SwReader){ .head = head };
  reader->root = sw_node_parse (name, bytes, &reader->error);
  if (reader->root == NULL)
    return;
  reader->root->used = TRUE;
  read_root (reader, sw_document_kind_code (kind), attributes);
  read_sources (reader);
  read_figures (reader, reader->root, "");
}

static void
refuse_unused (SwReader *reader, const SwNode *node)
{
  if (!node->used && node->figure != NULL)
    sw_reader_refuse_figure (reader, node->figure, SW_CONTRADICTION_UNKNOWN_FIGURE,
                             _ ("no figure of this name decides anything here: check its name and place"));
  else if (!node->used)
    sw_reader_refuse (reader, node, node->name, SW_CONTRADICTION_UNKNOWN_ELEMENT, _ ("<%s> has no meaning here"),
                      node->name);
  else if (strspn (node->text->str, " \t\r\n") != node->text->len)
    sw_reader_refuse (reader, node, node->name, SW_CONTRADICTION_UNKNOWN_ELEMENT,
                      _ ("text has no meaning in <%s>: write it as a figure or in a comment"), node->name);
  for (guint i = 0; i < node->children->len; i++)
    refuse_unused (reader, g_ptr_array_index (node->children, i));
}

gboolean
sw_reader_finish (SwReader *reader, GError **error)
{
  gboolean good;

  if (reader->error == NULL)
    refuse_unused (reader, reader->root);
  good = reader->error == NULL;
  if (!good)
    g_propagate_error (error, g_steal_pointer (&reader->error));
  g_clear_pointer (&reader->root, sw_node_free);
  return good;
}

SwNode *
sw_reader_child (SwReader *reader, SwNode *parent, const char *name)
{
  g_autoptr (GPtrArray) found = sw_reader_children (reader, parent, name);

  if (found->len > 1)
    sw_reader_refuse (reader, g_ptr_array_index (found, 1), name, SW_CONTRADICTION_DUPLICATE_ID,
                      _ ("<%s> may stand here once"), name);
  return found->len > 0 ? g_ptr_array_index (found, 0) : NULL;
}

GPtrArray *
sw_reader_children (SwReader *reader, SwNode *parent, const char *name)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; parent != NULL && i < parent->children->len; i++)
    {
      SwNode *node = g_ptr_array_index (parent->children, i);

      if (!g_str_equal (node->name, name))
        continue;
      node->used = TRUE;
      g_ptr_array_add (found, node);
    }
  return found;
}

const SwFigure *
sw_reader_figure (SwReader *reader, SwNode *parent, const char *name)
{
  for (guint i = 0; parent != NULL && i < parent->children->len; i++)
    {
      SwNode *node = g_ptr_array_index (parent->children, i);

      if (node->figure == NULL || g_strcmp0 (sw_node_attribute (node, "name"), name) != 0)
        continue;
      node->used = TRUE;
      return node->figure;
    }
  return NULL;
}

const SwFigure *
sw_reader_need (SwReader *reader, SwNode *parent, const char *name)
{
  const SwFigure *figure = sw_reader_figure (reader, parent, name);

  if (figure == NULL && reader->error == NULL)
    sw_reader_refuse (reader, parent != NULL ? parent : reader->root, name, SW_CONTRADICTION_MISSING_FIGURE,
                      _ ("the figure %s is missing: write it with an empty value if it is not known"), name);
  return figure;
}

GPtrArray *
sw_reader_texts (SwReader *reader, SwNode *parent)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; parent != NULL && i < parent->children->len; i++)
    {
      SwNode *node = g_ptr_array_index (parent->children, i);

      if (node->figure == NULL)
        continue;
      node->used = TRUE;
      g_ptr_array_add (found, node->figure);
    }
  return found;
}
