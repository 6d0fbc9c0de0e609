/* test-picture.c: the course line of every demo course, by numbers: what is drawn never lies over another word
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "desk-fixture.h"

#include "sw-course-layout.h"
#include "sw-course-picture.h"
#include "sw-demo.h"
#include "sw-store.h"

#include <pango/pangocairo.h>

#define WIDTH 977.0 /* what a window of 1280 px leaves beside the patient list */

typedef struct
{
  PangoContext *context;
  SwCourseStyle *style;
} Pen;

static void
pen_init (Pen *pen)
{
  pen->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  pen->style = sw_course_style_new_paper ("Sans 10");
  sw_course_style_measure (pen->style, pen->context);
}

static void
pen_clear (Pen *pen)
{
  sw_course_style_free (pen->style);
  g_object_unref (pen->context);
}

/* What the words themselves take; a lane's title is shortened to its width, no other word is. */
static double
width_of (const Pen *pen, const SwPlacedLabel *label)
{
  PangoLayout *layout = pango_layout_new (pen->context);
  int width;

  pango_layout_set_font_description (layout, pen->style->font);
  pango_layout_set_text (layout, label->text, -1);
  pango_layout_get_pixel_size (layout, &width, NULL);
  g_object_unref (layout);
  return label->kind == SW_LABEL_LANE ? MIN (width, label->width) : width;
}

static gboolean
overlap (const Pen *pen, const SwPlacedLabel *a, const SwPlacedLabel *b)
{
  double width_a = width_of (pen, a), width_b = width_of (pen, b);
  double left_a = a->x - a->align * width_a, left_b = b->x - b->align * width_b;

  return ABS (a->y - b->y) < pen->style->line_height && left_a < left_b + width_b && left_b < left_a + width_a;
}

static void
check_line (const Pen *pen, const SwCourseLine *line, gint64 patient)
{
  g_autoptr (SwCourseLayout) layout = sw_course_layout_new (line, SW_COURSE_WHOLE, WIDTH, pen->style);

  for (guint i = 0; i < layout->labels->len; i++)
    for (guint j = i + 1; j < layout->labels->len; j++)
      {
        const SwPlacedLabel *a = &g_array_index (layout->labels, SwPlacedLabel, i);
        const SwPlacedLabel *b = &g_array_index (layout->labels, SwPlacedLabel, j);

        ck_assert_msg (!overlap (pen, a, b), "patient %d: “%s” overlaps “%s”", (int) patient, a->text, b->text);
      }
  for (SwDay day = layout->axis->first; day < layout->axis->last; day++)
    ck_assert_double_lt (sw_axis_x (layout->axis, day, 0), sw_axis_x (layout->axis, day + 1, 0));
}

static char *
make_demo (const SwDemoOptions *options)
{
  g_autofree char *data = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  g_autofree char *parent = g_dir_make_tmp ("siteward-picture-XXXXXX", NULL);
  char *folder = g_build_filename (parent, "record", NULL);
  g_autoptr (GError) error = NULL;

  g_setenv ("SW_DATA_DIR", data, TRUE);
  ck_assert_msg (sw_demo_make (folder, options, &error), "%s", error ? error->message : "");
  return folder;
}

START_TEST (no_two_words_meet)
{
  SwDemoOptions options = { .seed = 1, .today = FIXTURE_TODAY };
  SwSpineQuery all = { NULL, SW_SHOW_ALL, FIXTURE_TODAY };
  char *folder = make_demo (&options);
  SwStore *store = sw_store_open (folder, SW_STORE_READ, NULL);
  SwPractice *practice = sw_store_load_practice (store, NULL);
  g_autoptr (SwBooks) books = sw_books_new (practice, NULL);
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (sw_practice_zone (practice));
  g_autoptr (GArray) ids = sw_store_spine (store, &all, NULL);
  guint curves = 0;
  Pen pen;

  ck_assert_uint_ge (ids->len, 24);
  pen_init (&pen);
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 patient = g_array_index (ids, gint64, i);
      SwDossier *dossier = sw_store_load_dossier (store, patient, NULL);
      SwCase c = { dossier, practice, books, 0, sw_demo_now (&options), zone };
      g_autoptr (SwCourseLine) line = sw_course_picture (&c);

      check_line (&pen, line, patient);
      curves += line->sizes->len + line->wounds->len;
      sw_dossier_free (dossier);
    }
  ck_assert_uint_ge (curves, ids->len);
  pen_clear (&pen);
  sw_practice_free (practice);
  sw_store_close (store);
  fixture_remove (folder);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("picture");
  TCase *tcase = tcase_create ("picture");

  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, no_two_words_meet);
  suite_add_tcase (suite, tcase);

  return fixture_run (suite);
}
