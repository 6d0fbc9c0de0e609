/* sw-course-mark.c: one mark of the course line
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-course-mark.h"

#include "sw-mark-shape.h"

struct _SwCourseMark
{
  GtkWidget parent_instance;

  /* borrowed */
  const SwLineMark *value;
  const SwCourseStyle *style;

  double radius;
};

G_DEFINE_FINAL_TYPE (SwCourseMark, sw_course_mark, GTK_TYPE_WIDGET)

enum { ACTIVATE, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
sw_course_mark_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwCourseMark *self = SW_COURSE_MARK (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  cairo_t *cr;

  if (self->value == NULL || self->style == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  sw_mark_shape_draw (cr, self->value->state, self->value->outside, width / 2.0, height / 2.0, self->radius,
                      self->style);
  cairo_destroy (cr);
}

/* Who parents a popover by hand must place it by hand. */
static void
sw_course_mark_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_present (GTK_POPOVER (child));
}

static void
released_cb (GtkGestureClick *click, int n_press, double x, double y, SwCourseMark *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (gtk_widget_contains (GTK_WIDGET (self), x, y))
    g_signal_emit (self, signals[ACTIVATE], 0);
}

static void
sw_course_mark_class_init (SwCourseMarkClass *class)
{
  static const guint keys[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_ISO_Enter, GDK_KEY_space, GDK_KEY_KP_Space };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->size_allocate = sw_course_mark_size_allocate;
  widget_class->snapshot = sw_course_mark_snapshot;

  signals[ACTIVATE] = g_signal_new ("activate", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST | G_SIGNAL_ACTION, 0, NULL,
                                    NULL,
                                    NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_activate_signal (widget_class, signals[ACTIVATE]);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_signal (widget_class, keys[i], 0, "activate", NULL);
  gtk_widget_class_set_css_name (widget_class, "coursemark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_BUTTON);
}

static void
sw_course_mark_init (SwCourseMark *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  g_signal_connect (click, "released", G_CALLBACK (released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

GtkWidget *
sw_course_mark_new (void)
{
  return g_object_new (SW_TYPE_COURSE_MARK, NULL);
}

void
sw_course_mark_set_value (SwCourseMark *self, const SwLineMark *value)
{
  self->value = value;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, value->sentence, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), value->sentence);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

const SwLineMark *
sw_course_mark_get_value (SwCourseMark *self)
{
  return self->value;
}

void
sw_course_mark_set_style (SwCourseMark *self, const SwCourseStyle *style, double radius)
{
  self->style = style;
  self->radius = radius;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
