/* sw-protocol-selection.c: which tumours a protocol may be used for
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-protocol-private.h"

#include "sw-question.h"
#include "sw-text.h"

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

static void
add_ruling (SwProtocol *protocol, const SwFigure *figure, const char *answer, SwSeverity severity)
{
  SwRuling *ruling = g_new0 (SwRuling, 1);

  ruling->question = g_strdup (figure->name);
  ruling->answer = g_strdup (answer);
  ruling->severity = severity;
  ruling->figure = figure;
  g_ptr_array_add (protocol->rulings, ruling);
}

/* One part, "patnaik-3: vet-decides" or "else: meets". (transfer full) the answer, NULL when it is refused. */
static char *
read_part (SwReader *reader, const SwFigure *figure, const SwQuestion *question, const char *part, SwSeverity *severity)
{
  g_auto (GStrv) sides = g_strsplit (part, ": ", 2);
  int code = sides[0] != NULL && sides[1] != NULL ? sw_code_index (severity_codes, sides[1]) : -1;

  if (code < 0)
    sw_reader_refuse_figure (
        reader, figure, SW_CONTRADICTION_BAD_VALUE,
        _ ("“%s” says nothing about an answer: write ANSWER: meets, note, vet-decides, not-known or "
           "rules-out"),
        part);
  else if (!g_str_equal (sides[0], "else") && sw_question_choice (question, sides[0]) == NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_QUESTION, _ ("the question has no answer %s"),
                             sides[0]);
  if (reader->error != NULL)
    return NULL;
  *severity = (SwSeverity) code;
  return g_strdup (sides[0]);
}

/* An answer that nothing is said about would pass unseen: each needs a ruling, its own or that of "else". */
static void
add_others (SwReader *reader, SwProtocol *protocol, const SwFigure *figure, const SwQuestion *question, int otherwise)
{
  for (guint i = 0; i < question->n_choices && reader->error == NULL; i++)
    {
      const char *answer = question->choices[i].code;

      if (sw_protocol_ruling (protocol, figure->name, answer) != NULL)
        continue;
      if (otherwise < 0)
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_MISSING_FIGURE,
                                 _ ("nothing is said about the answer %s: add it, or else: and a ruling"), answer);
      else
        add_ruling (protocol, figure, answer, (SwSeverity) otherwise);
    }
}

/* A figure named like a question, whose value says what each answer means: "no: meets; yes: rules-out". */
static void
read_rulings (SwReader *reader, SwProtocol *protocol, const SwFigure *figure)
{
  const SwQuestion *question = sw_question (figure->name);
  g_auto (GStrv) parts = sw_reader_list (reader, figure);
  int otherwise = -1;

  if (question == NULL)
    sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_UNKNOWN_QUESTION,
                             _ ("no question of this name is asked here"));
  for (guint i = 0; parts != NULL && parts[i] != NULL && reader->error == NULL; i++)
    {
      SwSeverity severity = SW_NOT_KNOWN;
      g_autofree char *answer = read_part (reader, figure, question, parts[i], &severity);

      if (answer == NULL)
        return;
      if (g_str_equal (answer, "else") ? otherwise >= 0 : sw_protocol_ruling (protocol, figure->name, answer) != NULL)
        sw_reader_refuse_figure (reader, figure, SW_CONTRADICTION_DUPLICATE_ID, _ ("the answer %s stands there twice"),
                                 answer);
      else if (g_str_equal (answer, "else"))
        otherwise = (int) severity;
      else
        add_ruling (protocol, figure, answer, severity);
    }
  if (parts != NULL && reader->error == NULL)
    add_others (reader, protocol, figure, question, otherwise);
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
    read_rulings (reader, protocol, g_ptr_array_index (answers, i));
}
