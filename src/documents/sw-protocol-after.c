/* sw-protocol-after.c: what a protocol says about the time after the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol-private.h"

#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <inttypes.h>

#define MOST_VISIT_DAY 3650

static void
read_visits (SwReader *reader, SwNode *after, SwProtocol *protocol)
{
  const SwFigure *figure = sw_reader_need (reader, after, "visit-days");
  g_auto (GStrv) parts = sw_reader_list (reader, figure);
  gint64 before = 0;

  for (guint i = 0; parts != NULL && parts[i] != NULL; i++)
    {
      gint64 parsed = 0;
      int day;

      if (!sw_integer_parse (parts[i], &parsed, NULL) || parsed < 1 || parsed > MOST_VISIT_DAY)
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_BAD_VALUE,
                                 _ ("“%s” is no day after the injection"), parts[i]);
      else if (parsed <= before)
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DAYS_REVERSED,
                                 _ ("day %s does not come after day %" PRId64), parts[i], before);
      before = parsed;
      day = (int) parsed;
      g_array_append_val (protocol->visit_days, day);
    }
}

static void
read_score (SwReader *reader, SwNode *after, SwProtocol *protocol)
{
  static const char *const rules[] = { "longest-diameter", NULL };
  const SwFigure *figure = sw_reader_need (reader, after, "score-day");
  gint64 day = sw_reader_whole (reader, figure, "d");

  sw_reader_code (reader, sw_reader_need (reader, after, "response-rule"), rules, SW_CONTRADICTION_UNKNOWN_RULE);
  protocol->score_day = day == SW_UNKNOWN ? 0 : (int) MIN (day, MOST_VISIT_DAY);
  if (!sw_reader_days (reader, sw_reader_need (reader, after, "score-days"), &protocol->score_first_day,
                       &protocol->score_last_day))
    return;
  if (day != SW_UNKNOWN && (day < protocol->score_first_day || day > protocol->score_last_day))
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DAY_OUTSIDE_COURSE,
                             _ ("day %d is not one of the days on which a score counts for it, %d to %d"),
                             protocol->score_day, protocol->score_first_day, protocol->score_last_day);
}

void
sw_protocol_read_after (SwReader *reader, SwProtocol *protocol)
{
  SwNode *after = sw_reader_child (reader, reader->root, "after");

  if (after == NULL)
    {
      sw_reader_refuse (reader, reader->root, "after", SW_CONTRADICTION_MISSING_FIGURE,
                        _ ("a protocol needs an <after>: visits, score, second injection"));
      return;
    }
  protocol->first_contact_hours = sw_reader_whole (reader, sw_reader_figure (reader, after, "first-contact"), "h");
  read_visits (reader, after, protocol);
  read_score (reader, after, protocol);
  protocol->retreat_day = sw_reader_whole (reader, sw_reader_figure (reader, after, "retreat-day"), "d");
  protocol->retreat_after_score_days =
      sw_reader_whole (reader, sw_reader_figure (reader, after, "retreat-after-score"), "d");
}
