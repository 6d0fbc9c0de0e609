/* sw-reply.c: what became of a request
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-reply.h"

SwReply *
sw_reply_new (void)
{
  SwReply *reply = g_new0 (SwReply, 1);

  reply->findings = sw_findings_new ();
  reply->rows = g_array_new (FALSE, FALSE, sizeof (SwRowRef));
  return reply;
}

void
sw_reply_free (SwReply *reply)
{
  if (reply == NULL)
    return;
  g_ptr_array_unref (reply->findings);
  g_array_unref (reply->rows);
  g_free (reply);
}

gint64
sw_reply_id (const SwReply *reply, SwFactKind kind)
{
  for (guint i = 0; i < reply->rows->len; i++)
    {
      const SwRowRef *row = &g_array_index (reply->rows, SwRowRef, i);

      if (row->kind == kind)
        return row->id;
    }
  return 0;
}
