/* sw-protocol-selection.c: which tumours a protocol may be used for
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol-private.h"

#include "sw-question.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What a document writes for an answer, in the order of SwSeverity. */
static const char *const severity_codes[] = { "meets", "note", "vet-decides", "not-known", "rules-out", NULL };

G_STATIC_ASSERT (G_N_ELEMENTS (severity_codes) == SW_N_SEVERITIES + 1);

/* "anywhere", or regions separated by ";". */
static void
read_regions (SwReader *reader, SwNode *selection, const char *name, gboolean regions[SW_N_REGIONS])
{
  const SwFigure *figure = sw_reader_figure (reader, selection, name);
  g_auto (GStrv) parts = sw_reader_list (reader, figure);

  for (guint i = 0; parts != NULL && parts[i] != NULL; i++)
    {
      int region = sw_region_from_code (parts[i]);

      if (g_str_equal (parts[i], "anywhere"))
        for (int all = 0; all < SW_N_REGIONS; all++)
          regions[all] = TRUE;
      else if (region >= 0)
        regions[region] = TRUE;
      else
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_REGION,
                                 _ ("“%s” is no region of the body map"), parts[i]);
    }
}

void
sw_ruling_free (SwRuling *ruling)
{
  g_free (ruling->question);
  g_free (ruling->answer);
  g_free (ruling);
}

/* A figure "question/answer" whose value says what that answer means. */
static void
read_ruling (SwReader *reader, SwProtocol *protocol, const SwFigure *figure)
{
  g_auto (GStrv) parts = g_strsplit (figure->name, "/", 2);
  const SwQuestion *question = sw_question (parts[0]);
  int severity = sw_reader_code (reader, figure, severity_codes, SW_CONTRADICTION_BAD_VALUE);
  SwRuling *ruling;

  if (question == NULL || parts[1] == NULL || sw_question_choice (question, parts[1]) == NULL)
    {
      sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_QUESTION,
                               _ ("no question asked here has this answer"));
      return;
    }
  ruling = g_new0 (SwRuling, 1);
  ruling->question = g_strdup (parts[0]);
  ruling->answer = g_strdup (parts[1]);
  /* An answer whose meaning isn't filled in is not known: it blocks, and the document isn't adoptable either. */
  ruling->severity = severity < 0 ? SW_NOT_KNOWN : (SwSeverity) severity;
  ruling->figure = figure;
  g_ptr_array_add (protocol->rulings, ruling);
}

void
sw_protocol_read_selection (SwReader *reader, SwProtocol *protocol)
{
  SwNode *selection = sw_reader_child (reader, reader->root, "selection");
  g_autoptr (GPtrArray) answers = NULL;

  if (selection == NULL)
    {
      sw_reader_refuse (reader, reader->root, "selection", SW_CONTRADICTION_MISSING_FIGURE,
                        _ ("a protocol needs a <selection>: which tumours it is for"));
      return;
    }
  read_regions (reader, selection, "cutaneous-regions", protocol->regions[SW_DEPTH_CUTANEOUS]);
  read_regions (reader, selection, "subcutaneous-regions", protocol->regions[SW_DEPTH_SUBCUTANEOUS]);
  read_regions (reader, selection, "function-regions", protocol->function_regions);
  protocol->least_age_months = sw_reader_whole (reader, sw_reader_figure (reader, selection, "least-age"), "months");
  protocol->stage_days = sw_reader_whole (reader, sw_reader_figure (reader, selection, "staging-age"), "d");
  protocol->growth_permille = sw_reader_amount (reader, sw_reader_figure (reader, selection, "growth"), "%", 1);
  answers = sw_reader_texts (reader, sw_reader_child (reader, selection, "answers"));
  for (guint i = 0; i < answers->len; i++)
    read_ruling (reader, protocol, g_ptr_array_index (answers, i));
}
