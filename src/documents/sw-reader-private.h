/* sw-reader-private.h: reads figures from the tree, checks what all figures must have, and refuses by name
 *
 * A reader keeps its first refusal; after it every call answers with "no value", so that parsing needs no test at each
 * step and asks once, at the end (sw_reader_finish()).
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-node-private.h"
#include "sw-unknown.h"

G_BEGIN_DECLS

typedef struct
{
  SwDocumentHead *head; /* borrowed */
  SwNode *root;
  GError *error;        /* the first refusal */
} SwReader;

/* "FILE:LINE:COLUMN: KEY: SENTENCE [kind]"; the sentence's own full stop is added. */
void sw_document_refuse (GError **error, const char *file, int line, int column, const char *key, SwContradiction kind,
                         const char *format, ...) G_GNUC_PRINTF (7, 8);

/* Parses the tree, fills the head (id, revision, title, sources, figures) and checks each figure's mark and source.
 * @root is the name that the root element must have; @attributes: what it may have besides id, revision, title,
 * NULL-terminated. */
void sw_reader_init (SwReader *reader, SwDocumentHead *head, SwDocumentKind kind, const char *name, GBytes *bytes,
                     const char *const *attributes);

/* Refuses elements and figures that nothing asked for. FALSE with the first refusal, if there was one. Ends the reader.
 */
gboolean sw_reader_finish (SwReader *reader, GError **error);

void sw_document_head_clear (SwDocumentHead *head);

/* @at: the element the refusal points to. */
void sw_reader_refuse (SwReader *reader, const SwNode *at, const char *key, SwContradiction kind, const char *format,
                       ...) G_GNUC_PRINTF (5, 6);
void sw_reader_refuse_figure (SwReader *reader, const SwFigure *figure, SwContradiction kind, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

/* Children of an element by name; NULL when there is none. An element may stand once where sw_reader_child() asks for
 * it. */
SwNode *sw_reader_child (SwReader *reader, SwNode *parent, const char *name);
GPtrArray *sw_reader_children (SwReader *reader, SwNode *parent, const char *name); /* (transfer container) SwNode */

/* An attribute that must be there and hold a code (lower-case letters, digits, hyphens); "" when it is refused. */
const char *sw_reader_id (SwReader *reader, const SwNode *node, const char *attribute);

/* Whether an attribute says "yes". Only "yes" and "no" may stand there; without it the answer is no. */
gboolean sw_reader_flag (SwReader *reader, const SwNode *node, const char *attribute);

/* Refuses attributes not named here, NULL-terminated. */
void sw_reader_only (SwReader *reader, const SwNode *node, const char *const *attributes);

/* The figure of this short name directly under @parent (which may be NULL); NULL when there is none. */
const SwFigure *sw_reader_figure (SwReader *reader, SwNode *parent, const char *name);

/* The same, refused when it is missing. */
const SwFigure *sw_reader_need (SwReader *reader, SwNode *parent, const char *name);

/* Values. A NULL figure or one without a value is SW_UNKNOWN (or NULL). @unit: what must stand after the number, and
 * after one space; "" for none. @digits: as in sw_decimal_parse(). */
gint64 sw_reader_amount (SwReader *reader, const SwFigure *figure, const char *unit, guint digits);
gint64 sw_reader_whole (SwReader *reader, const SwFigure *figure, const char *unit);

/* "-2 to +4": both of one span, refused when reversed; FALSE without a value. */
gboolean sw_reader_days (SwReader *reader, const SwFigure *figure, int *first, int *last);

/* Parts of a list, separated by ";", without spaces at their ends. (transfer full) NULL without a value. */
char **sw_reader_list (SwReader *reader, const SwFigure *figure);

/* The index of the value in the NULL-terminated @codes; -1 without a value, or refused as @kind. */
int sw_reader_code (SwReader *reader, const SwFigure *figure, const char *const *codes, SwContradiction kind);

/* All figures directly under an element, whatever their names: rules and cautions as texts. (transfer container)
 * SwFigure */
GPtrArray *sw_reader_texts (SwReader *reader, SwNode *parent);

G_END_DECLS
