/* sw-outcome-paper.c: the outcomes as a report on A4
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-outcome-paper.h"

#include "sw-chart-draw.h"
#include "sw-paint-private.h"

#include <cairo-pdf.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <pango/pangocairo.h>

/* Points. */
#define PAGE_WIDTH 595.28
#define PAGE_HEIGHT 841.89
#define MARGIN 48.0
#define FOOT 26.0
#define INDENT 14.0

#define FONT "DejaVu Sans, Sans"

typedef enum
{
  TEXT_TITLE,
  TEXT_HEAD,
  TEXT_GROUP,
  TEXT_BODY,
  TEXT_QUIET,
  N_TEXTS
} TextKind;

static const struct
{
  double size;
  gboolean bold, quiet;
  double above, below;
} looks[N_TEXTS] = {
  [TEXT_TITLE] = { 16, TRUE, FALSE, 0, 6 }, [TEXT_HEAD] = { 11.5, TRUE, FALSE, 16, 4 },
  [TEXT_GROUP] = { 9, TRUE, FALSE, 5, 2 },  [TEXT_BODY] = { 9, FALSE, FALSE, 0, 1.5 },
  [TEXT_QUIET] = { 8, FALSE, TRUE, 1, 3 },
};

typedef struct
{
  cairo_t *cr;
  SwCourseStyle *style; /* of charts */
  const char *foot;
  double y;
  guint page;
} Paper;

/* --- pages --- */

static void
draw_foot (Paper *paper)
{
  g_autofree char *number = g_strdup_printf (_("page %u"), paper->page);
  double y = PAGE_HEIGHT - MARGIN + FOOT / 2;

  sw_paint_text (paper->cr, paper->style, &paper->style->quiet, paper->foot, MARGIN, y, 0,
                 PAGE_WIDTH - 2 * MARGIN - 60);
  sw_paint_text (paper->cr, paper->style, &paper->style->quiet, number, PAGE_WIDTH - MARGIN, y, 1, 60);
}

static void
end_page (Paper *paper)
{
  draw_foot (paper);
  cairo_show_page (paper->cr);
  paper->page++;
  paper->y = MARGIN;
}

static void
need (Paper *paper, double height)
{
  if (paper->y + height > PAGE_HEIGHT - MARGIN && paper->y > MARGIN)
    end_page (paper);
}

/* --- text --- */

static PangoLayout *
text_layout (Paper *paper, TextKind kind, const char *text, double width)
{
  PangoLayout *layout = pango_cairo_create_layout (paper->cr);
  PangoFontDescription *font = pango_font_description_from_string (FONT);

  pango_font_description_set_absolute_size (font, looks[kind].size * PANGO_SCALE);
  pango_font_description_set_weight (font, looks[kind].bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_width (layout, pango_units_from_double (width));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static double
layout_height (PangoLayout *layout)
{
  int height;

  pango_layout_get_size (layout, NULL, &height);
  return pango_units_to_double (height);
}

static void
show_layout (Paper *paper, PangoLayout *layout, TextKind kind, double x)
{
  sw_paint_colour (paper->cr, looks[kind].quiet ? &paper->style->quiet : &paper->style->text);
  cairo_move_to (paper->cr, x, paper->y);
  pango_cairo_show_layout (paper->cr, layout);
}

/* `after`: room that must follow on the same page, so that no heading ends one. */
static void
write_text (Paper *paper, TextKind kind, const char *text, double indent, double after)
{
  g_autoptr (PangoLayout) layout = text_layout (paper, kind, text, PAGE_WIDTH - 2 * MARGIN - indent);
  double height = layout_height (layout);

  need (paper, looks[kind].above + height + looks[kind].below + after);
  paper->y += looks[kind].above;
  show_layout (paper, layout, kind, MARGIN + indent);
  paper->y += height + looks[kind].below;
}

/* What it is on the left, the figure on the right. */
static void
write_figure (Paper *paper, const SwOutcomeFigure *figure)
{
  g_autofree char *value = sw_outcome_figure_text (figure);
  double width = PAGE_WIDTH - 2 * MARGIN - INDENT, left = width * 0.56;
  g_autoptr (PangoLayout) label = text_layout (paper, TEXT_BODY, figure->label, left - INDENT);
  g_autoptr (PangoLayout) text = text_layout (paper, TEXT_BODY, value, width - left);
  double height = MAX (layout_height (label), layout_height (text)) + looks[TEXT_BODY].below;

  need (paper, height);
  show_layout (paper, label, TEXT_BODY, MARGIN + INDENT);
  show_layout (paper, text, TEXT_BODY, MARGIN + INDENT + left);
  paper->y += height;
}

static void
write_exact (Paper *paper, const SwOutcomeFigure *figure)
{
  g_autofree char *text = NULL;

  if (figure->kind != SW_FIGURE_SHARE || figure->n == 0)
    return;
  text = g_strdup_printf (_("exact limits (Clopper and Pearson): %.1f to %.1f %%"), 100 * figure->exact_lo,
                          100 * figure->exact_hi);
  write_text (paper, TEXT_QUIET, text, 2 * INDENT, 0);
}

/* --- sections --- */

static void
write_chart (Paper *paper, const SwChart *chart)
{
  double width = PAGE_WIDTH - 2 * MARGIN, height = sw_chart_height (chart, paper->style);
  g_autoptr (SwChartLayout) layout = NULL;

  need (paper, height + 2 * paper->style->line_height);
  paper->y += paper->style->line_height / 2;
  layout = sw_chart_layout_new (chart, paper->style, width, height);
  cairo_save (paper->cr);
  cairo_translate (paper->cr, MARGIN, paper->y);
  sw_chart_draw (paper->cr, chart, layout, paper->style);
  cairo_restore (paper->cr);
  paper->y += height + paper->style->line_height / 2;
  if (chart->words != NULL)
    write_text (paper, TEXT_QUIET, chart->words, 0, 0);
}

static void
write_group (Paper *paper, const SwOutcomeGroup *group)
{
  g_autofree char *left_out = sw_outcome_group_left_out_text (group);
  g_autofree char *label = group->few ? g_strdup_printf (_("%s (fewer than ten: read with caution)"), group->label)
                                      : g_strdup (group->label);

  write_text (paper, TEXT_GROUP, label, INDENT, 2 * looks[TEXT_BODY].size);
  for (guint i = 0; i < group->figures->len; i++)
    {
      write_figure (paper, group->figures->pdata[i]);
      write_exact (paper, group->figures->pdata[i]);
    }
  if (left_out != NULL)
    write_text (paper, TEXT_QUIET, left_out, INDENT, 0);
}

/* What belongs under a heading on the same page: its first chart, or a few lines. */
static double
room_after (const Paper *paper, const SwOutcomeSection *section)
{
  double lines = 8 * looks[TEXT_BODY].size;

  return section->charts->len > 0 ? lines + sw_chart_height (section->charts->pdata[0], paper->style) : lines;
}

static void
write_section (Paper *paper, const SwOutcomeSection *section)
{
  write_text (paper, TEXT_HEAD, section->title, 0, room_after (paper, section));
  write_text (paper, TEXT_QUIET, section->definition, 0, 0);
  if (section->empty != NULL)
    {
      write_text (paper, TEXT_BODY, section->empty, INDENT, 0);
      return;
    }
  for (guint i = 0; i < section->charts->len; i++)
    write_chart (paper, section->charts->pdata[i]);
  for (guint i = 0; i < section->groups->len; i++)
    write_group (paper, section->groups->pdata[i]);
  for (guint i = 0; i < section->tests->len; i++)
    write_figure (paper, section->tests->pdata[i]);
}

static void
write_lines (Paper *paper, const GPtrArray *lines, TextKind kind)
{
  for (guint i = 0; i < lines->len; i++)
    write_text (paper, kind, lines->pdata[i], 0, 0);
}

static void
write_report (Paper *paper, const SwOutcomes *outcomes)
{
  write_text (paper, TEXT_TITLE, _("Outcomes"), 0, 0);
  write_lines (paper, outcomes->heads, TEXT_BODY);
  write_lines (paper, outcomes->cautions, TEXT_QUIET);
  for (guint i = 0; i < outcomes->sections->len; i++)
    write_section (paper, outcomes->sections->pdata[i]);
  end_page (paper);
}

/* --- the file --- */

static cairo_status_t
collect (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
measure (SwCourseStyle *style, cairo_t *cr)
{
  PangoContext *context = pango_cairo_create_context (cr);

  pango_cairo_context_set_resolution (context, 72); /* a point is a unit here */
  sw_course_style_measure (style, context);
  g_object_unref (context);
}

static cairo_status_t
draw_all (const SwOutcomes *outcomes, GByteArray *bytes)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (collect, bytes, PAGE_WIDTH, PAGE_HEIGHT);
  g_autoptr (SwCourseStyle) style = sw_course_style_new_paper (FONT);
  Paper paper = { cairo_create (surface), style, NULL, MARGIN, 1 };
  cairo_status_t status;

  pango_font_description_set_absolute_size (style->font, 8 * PANGO_SCALE);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, _("Outcomes"));
  measure (style, paper.cr);
  paper.foot = outcomes->cautions->len > 0 ? outcomes->cautions->pdata[0] : "";
  write_report (&paper, outcomes);
  cairo_destroy (paper.cr);
  cairo_surface_finish (surface);
  status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return status;
}

gboolean
sw_outcome_paper_write (const SwOutcomes *outcomes, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_status_t status = draw_all (outcomes, bytes);

  if (status == CAIRO_STATUS_SUCCESS)
    return g_file_set_contents (path, (const char *) bytes->data, (gssize) bytes->len, error);
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: %s", path, cairo_status_to_string (status));
  return FALSE;
}
