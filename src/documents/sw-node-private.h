/* sw-node-private.h: a small XML tree in which every element knows where it begins
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-document.h"

#include <glib.h>

G_BEGIN_DECLS

typedef struct _SwNode SwNode;

struct _SwNode
{
  char *name;
  char **attributes;   /* name, value, name, value, ... NULL */
  GString *text;       /* what stands between its tags, children left out */
  int line, column;    /* of its "<" */
  GPtrArray *children; /* SwNode */
  SwFigure *figure;    /* of a figure element once it is read; borrowed from the head */
  gboolean used;       /* something asked for it; what nothing asked for has no meaning */
};

/* The root element. Refuses what is no XML, no UTF-8, has a document type, over a megabyte or over 16 deep. */
SwNode *sw_node_parse (const char *file, GBytes *bytes, GError **error);
void sw_node_free (SwNode *node);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwNode, sw_node_free)

/* NULL: no such attribute. */
const char *sw_node_attribute (const SwNode *node, const char *name);

G_END_DECLS
