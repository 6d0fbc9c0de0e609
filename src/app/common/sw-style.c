/* sw-style.c: the look of the window
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-style.h"

#include <string.h>

#define RESOURCES "/org/siteward/Siteward/"
#define COLOURS "sw-style-colours"

static gboolean
contains (const char *name, const char *part)
{
  g_autofree char *folded = g_utf8_casefold (name != NULL ? name : "", -1);

  return strstr (folded, part) != NULL;
}

/* Which colours go with the theme. GTK_THEME of the environment wins over the settings, as it does inside GTK. */
static const char *
colours_for (GtkSettings *settings)
{
  g_autofree char *name = NULL;
  const char *forced = g_getenv ("GTK_THEME");
  gboolean dark;

  g_object_get (settings, "gtk-theme-name", &name, "gtk-application-prefer-dark-theme", &dark, NULL);
  if (forced != NULL)
    {
      g_free (name);
      name = g_strdup (forced);
      dark = FALSE;
    }
  dark = dark || contains (name, "dark") || contains (name, "inverse");
  if (contains (name, "contrast") || contains (name, "hc"))
    return dark ? RESOURCES "colours-contrast-dark.css" : RESOURCES "colours-contrast.css";

  return dark ? RESOURCES "colours-dark.css" : RESOURCES "colours-light.css";
}

static void
theme_cb (GtkSettings *settings, GParamSpec *pspec, GdkDisplay *display)
{
  GtkCssProvider *provider = g_object_get_data (G_OBJECT (display), COLOURS);

  gtk_css_provider_load_from_resource (provider, colours_for (settings));
}

static void
add_provider (GdkDisplay *display, GtkCssProvider *provider)
{
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

void
sw_style_install (GdkDisplay *display)
{
  GtkSettings *settings = gtk_settings_get_for_display (display);
  g_autoptr (GtkCssProvider) sheet = NULL;
  GtkCssProvider *colours;

  if (g_object_get_data (G_OBJECT (display), COLOURS) != NULL)
    return;
  sheet = gtk_css_provider_new ();
  colours = gtk_css_provider_new ();
  g_object_set_data_full (G_OBJECT (display), COLOURS, colours, g_object_unref);
  theme_cb (settings, NULL, display);
  gtk_css_provider_load_from_resource (sheet, RESOURCES "siteward.css");
  add_provider (display, colours);
  add_provider (display, sheet);
  g_signal_connect (settings, "notify::gtk-theme-name", G_CALLBACK (theme_cb), display);
  g_signal_connect (settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (theme_cb), display);
}

static SwColour
lookup (GtkWidget *widget, const char *name)
{
  GdkRGBA colour;

  if (!gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &colour))
    gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  return (SwColour){ colour.red, colour.green, colour.blue, colour.alpha };
}

SwCourseStyle *
sw_style_course (GtkWidget *widget)
{
  SwCourseStyle *style = g_new0 (SwCourseStyle, 1);
  PangoContext *context = gtk_widget_get_pango_context (widget);

  style->font = pango_font_description_copy (pango_context_get_font_description (context));
  style->ground = lookup (widget, "sw_ground");
  style->band = lookup (widget, "sw_band");
  style->rule = lookup (widget, "sw_rule");
  style->text = lookup (widget, "sw_text");
  style->quiet = lookup (widget, "sw_quiet");
  style->accent = lookup (widget, "sw_accent");
  style->caution = lookup (widget, "sw_caution");
  style->stop = lookup (widget, "sw_stop");
  sw_course_style_measure (style, context);

  return style;
}
