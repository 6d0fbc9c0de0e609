/* sw-paint.c: the few strokes that every picture of this room is made of
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-paint-private.h"

#include <pango/pangocairo.h>

void
sw_paint_colour (cairo_t *cr, const SwColour *colour)
{
  cairo_set_source_rgba (cr, colour->red, colour->green, colour->blue, colour->alpha);
}

static PangoLayout *
make_layout (cairo_t *cr, const SwCourseStyle *style, const char *text, double most)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoAttrList *figures = pango_attr_list_new ();

  pango_attr_list_insert (figures, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, figures);
  pango_attr_list_unref (figures);
  pango_layout_set_font_description (layout, style->font);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, pango_units_from_double (most));
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_text (layout, text, -1);

  return layout;
}

void
sw_paint_text (cairo_t *cr, const SwCourseStyle *style, const SwColour *colour, const char *text, double x, double y,
               double align, double most)
{
  g_autoptr (PangoLayout) layout = make_layout (cr, style, text, most);
  PangoRectangle box; /* its x is not 0 for text from right to left */

  pango_layout_get_pixel_extents (layout, NULL, &box);
  sw_paint_colour (cr, colour);
  cairo_move_to (cr, x - box.x - align * box.width, y - box.height / 2.0);
  pango_cairo_show_layout (cr, layout);
}
