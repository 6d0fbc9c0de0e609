/* sw-course-view.c: the course line as a widget
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-course-view.h"

#include "sw-course-draw.h"
#include "sw-course-mark.h"
#include "sw-focus.h"
#include "sw-style.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Narrower than this many times the least width, only ten days are shown. */
#define WHOLE_FROM 1.4
#define FINGER 1.35 /* a mark's widget is so much larger than its shape */

struct _SwCourseView
{
  GtkWidget parent_instance;

  /* owned */
  SwCourseLine *line;
  SwCourseStyle *style;
  SwCourseLayout *layout;
  GPtrArray *marks; /* SwCourseMark, in the order of layout->marks; owned by the widget tree */

  /* borrowed */
  GtkWidget *current; /* where Tab enters */
};

G_DEFINE_FINAL_TYPE (SwCourseView, sw_course_view, GTK_TYPE_WIDGET)

enum { MARK_ACTIVATED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
mark_activate_cb (SwCourseMark *mark, SwCourseView *self)
{
  g_signal_emit (self, signals[MARK_ACTIVATED], 0, mark, sw_course_mark_get_value (mark));
}

static const SwCourseStyle *
style_of (SwCourseView *self)
{
  if (self->style == NULL)
    self->style = sw_style_course (GTK_WIDGET (self));
  return self->style;
}

static SwCourseZoom
zoom_for (SwCourseView *self, int width)
{
  return width < WHOLE_FROM * sw_course_layout_least_width (style_of (self)) ? SW_COURSE_TEN_DAYS : SW_COURSE_WHOLE;
}

static gboolean
stands_for (const SwLineMark *a, const SwLineMark *b)
{
  return a->kind == b->kind && a->id == b->id && a->course == b->course && (a->id != 0 || a->day == b->day);
}

/* The widget that showed this mark before, taken out of `old`; a new one if there was none. */
static GtkWidget *
take_widget (SwCourseView *self, GPtrArray *old, const SwLineMark *value)
{
  GtkWidget *widget;

  for (guint i = 0; i < old->len; i++)
    if (stands_for (sw_course_mark_get_value (old->pdata[i]), value))
      return g_ptr_array_remove_index (old, i);
  widget = sw_course_mark_new ();
  g_signal_connect (widget, "activate", G_CALLBACK (mark_activate_cb), self);

  return widget;
}

static void
drop_widget (SwCourseView *self, GtkWidget *widget)
{
  if (self->current == widget)
    self->current = NULL;
  gtk_widget_unparent (widget);
}

/* Widgets follow the layout in its order, which is the order of Tab and of a screen reader. */
static void
place_widgets (SwCourseView *self, GPtrArray *old)
{
  GtkWidget *before = NULL;

  for (guint i = 0; i < self->layout->marks->len; i++)
    {
      const SwPlacedMark *placed = &g_array_index (self->layout->marks, SwPlacedMark, i);
      GtkWidget *widget = take_widget (self, old, placed->mark);

      sw_course_mark_set_value (SW_COURSE_MARK (widget), placed->mark);
      sw_course_mark_set_style (SW_COURSE_MARK (widget), style_of (self), placed->radius);
      gtk_widget_insert_after (widget, GTK_WIDGET (self), before);
      g_ptr_array_add (self->marks, widget);
      before = widget;
    }
}

/* Lays out `line` at this width and makes the widgets agree. The old line lives until no widget points into it. */
static void
lay_out (SwCourseView *self, SwCourseLine *line, int width)
{
  g_autoptr (GPtrArray) old = self->marks;

  g_clear_pointer (&self->layout, sw_course_layout_free);
  self->marks = g_ptr_array_new ();
  if (line != NULL)
    {
      self->layout = sw_course_layout_new (line, zoom_for (self, width), width, style_of (self));
      place_widgets (self, old);
    }
  for (guint i = 0; i < old->len; i++)
    drop_widget (self, old->pdata[i]);
  sw_focus_strip_changed (GTK_WIDGET (self));
}

static void
allocate_marks (SwCourseView *self)
{
  for (guint i = 0; i < self->marks->len; i++)
    {
      const SwPlacedMark *placed = &g_array_index (self->layout->marks, SwPlacedMark, i);
      int reach = (int) ceil (placed->radius * FINGER);
      GtkAllocation box = { (int) round (placed->x) - reach, (int) round (placed->y) - reach, 2 * reach, 2 * reach };

      gtk_widget_size_allocate (self->marks->pdata[i], &box, -1);
    }
}

static void
sw_course_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  SwCourseView *self = SW_COURSE_VIEW (widget);

  if (self->line == NULL)
    return;
  if (self->layout == NULL || self->layout->width != width)
    lay_out (self, self->line, width);
  for (guint i = 0; i < self->marks->len; i++)
    gtk_widget_measure (self->marks->pdata[i], GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  allocate_marks (self);
}

static void
sw_course_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  SwCourseView *self = SW_COURSE_VIEW (widget);

  if (self->line == NULL)
    *minimum = *natural = 0;
  else if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = (int) sw_course_layout_height (self->line, style_of (self));
  else
    {
      *minimum = (int) sw_course_layout_least_width (style_of (self));
      *natural = 2 * *minimum;
    }
}

static void
sw_course_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwCourseView *self = SW_COURSE_VIEW (widget);
  cairo_t *cr;

  if (self->layout == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget),
                                                                 gtk_widget_get_height (widget)));
  sw_course_draw_ground (cr, self->layout, style_of (self));
  cairo_destroy (cr);
  for (guint i = 0; i < self->marks->len; i++)
    gtk_widget_snapshot_child (widget, self->marks->pdata[i], snapshot);
}

/* Another theme, font or text size: colours and measures are read anew. */
static void
sw_course_view_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  SwCourseView *self = SW_COURSE_VIEW (widget);

  GTK_WIDGET_CLASS (sw_course_view_parent_class)->css_changed (widget, change);
  for (guint i = 0; i < self->marks->len; i++)
    sw_course_mark_set_style (self->marks->pdata[i], NULL, 0);
  g_clear_pointer (&self->style, sw_course_style_free);
  g_clear_pointer (&self->layout, sw_course_layout_free);
  gtk_widget_queue_resize (widget);
}

static int
index_of (SwCourseView *self, GtkWidget *mark)
{
  guint index;

  return mark != NULL && g_ptr_array_find (self->marks, mark, &index) ? (int) index : -1;
}

/* Where Tab enters: the mark visited last, else the first one that wants something, else the first. */
static GtkWidget *
entrance (SwCourseView *self)
{
  if (index_of (self, self->current) >= 0)
    return self->current;
  for (guint i = 0; i < self->marks->len; i++)
    {
      SwMarkState state = sw_course_mark_get_value (self->marks->pdata[i])->state;

      if (state == SW_MARK_DUE || state == SW_MARK_NOT_KNOWN || state == SW_MARK_VISIT_DUE
          || state == SW_MARK_VISIT_OVERDUE)
        return self->marks->pdata[i];
    }
  return self->marks->len > 0 ? self->marks->pdata[0] : NULL;
}

static const SwPlacedMark *
placed_at (SwCourseView *self, int index)
{
  return &g_array_index (self->layout->marks, SwPlacedMark, index);
}

/* The nearest mark of the next lane that has any. */
static int
step_between_lanes (SwCourseView *self, int from, int direction)
{
  const SwPlacedMark *here = placed_at (self, from);
  int best = -1;

  for (guint i = 0; i < self->layout->marks->len; i++)
    {
      const SwPlacedMark *there = placed_at (self, i);
      int lanes = ((int) there->lane - (int) here->lane) * direction;
      int best_lanes = best >= 0 ? ((int) placed_at (self, best)->lane - (int) here->lane) * direction : G_MAXINT;

      if (lanes <= 0 || lanes > best_lanes)
        continue;
      if (lanes < best_lanes || fabs (there->x - here->x) < fabs (placed_at (self, best)->x - here->x))
        best = i;
    }
  return best;
}

static int
step_along_lane (SwCourseView *self, int from, int step)
{
  int to = from + step;

  if (to < 0 || to >= (int) self->marks->len || placed_at (self, to)->lane != placed_at (self, from)->lane)
    return -1;
  return to;
}

/* A popover that is open over one of the marks walks its own fields. */
static GtkWidget *
popover_with_focus (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *popover = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) : NULL;

  return popover != NULL && gtk_widget_is_ancestor (popover, widget) ? popover : NULL;
}

static gboolean
sw_course_view_focus (GtkWidget *widget, GtkDirectionType direction)
{
  SwCourseView *self = SW_COURSE_VIEW (widget);
  GtkWidget *popover = popover_with_focus (widget);
  int from = index_of (self, gtk_widget_get_focus_child (widget));
  int to = -1;

  if (popover != NULL)
    return gtk_widget_child_focus (popover, direction);
  if (self->layout == NULL)
    return FALSE;
  if (from < 0)
    return entrance (self) != NULL && gtk_widget_grab_focus (entrance (self));
  switch (direction)
    {
    case GTK_DIR_TAB_FORWARD:
    case GTK_DIR_TAB_BACKWARD:
      break;
    case GTK_DIR_LEFT:
      to = step_along_lane (self, from, -1);
      break;
    case GTK_DIR_RIGHT:
      to = step_along_lane (self, from, 1);
      break;
    case GTK_DIR_UP:
      to = step_between_lanes (self, from, -1);
      break;
    case GTK_DIR_DOWN:
      to = step_between_lanes (self, from, 1);
      break;
    }
  return to >= 0 && gtk_widget_grab_focus (self->marks->pdata[to]);
}

static void
sw_course_view_set_focus_child (GtkWidget *widget, GtkWidget *child)
{
  if (child != NULL)
    SW_COURSE_VIEW (widget)->current = child;
  GTK_WIDGET_CLASS (sw_course_view_parent_class)->set_focus_child (widget, child);
}

static void
sw_course_view_dispose (GObject *object)
{
  SwCourseView *self = SW_COURSE_VIEW (object);

  sw_course_view_set_line (self, NULL);
  g_clear_pointer (&self->style, sw_course_style_free);
  G_OBJECT_CLASS (sw_course_view_parent_class)->dispose (object);
}

static void
sw_course_view_finalize (GObject *object)
{
  g_ptr_array_unref (SW_COURSE_VIEW (object)->marks);
  G_OBJECT_CLASS (sw_course_view_parent_class)->finalize (object);
}

static void
sw_course_view_class_init (SwCourseViewClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->dispose = sw_course_view_dispose;
  object_class->finalize = sw_course_view_finalize;
  widget_class->size_allocate = sw_course_view_size_allocate;
  widget_class->measure = sw_course_view_measure;
  widget_class->snapshot = sw_course_view_snapshot;
  widget_class->css_changed = sw_course_view_css_changed;
  widget_class->focus = sw_course_view_focus;
  widget_class->set_focus_child = sw_course_view_set_focus_child;

  signals[MARK_ACTIVATED] = g_signal_new ("mark-activated", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                          NULL,
                                          G_TYPE_NONE, 2, SW_TYPE_COURSE_MARK, G_TYPE_POINTER);
  gtk_widget_class_set_css_name (widget_class, "courseview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_course_view_init (SwCourseView *self)
{
  self->marks = g_ptr_array_new ();
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Course line"), -1);
}

GtkWidget *
sw_course_view_new (void)
{
  return g_object_new (SW_TYPE_COURSE_VIEW, NULL);
}

void
sw_course_view_set_line (SwCourseView *self, SwCourseLine *line)
{
  g_autoptr (SwCourseLine) old = self->line;
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  g_autofree char *words = line != NULL ? sw_course_line_text (line) : g_strdup ("");

  self->line = line;
  if (line == NULL || width > 0)
    lay_out (self, line, width);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  gtk_widget_set_visible (GTK_WIDGET (self), line != NULL);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

const SwCourseLine *
sw_course_view_get_line (SwCourseView *self)
{
  return self->line;
}

GtkWidget *
sw_course_view_find_mark (SwCourseView *self, SwFactKind kind, gint64 id)
{
  for (guint i = 0; i < self->marks->len; i++)
    {
      const SwLineMark *value = sw_course_mark_get_value (self->marks->pdata[i]);

      if (value->kind == kind && value->id == id)
        return self->marks->pdata[i];
    }
  return NULL;
}
