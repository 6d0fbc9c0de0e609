/* sw-demo.h: an invented practice to try the program on, made through the desk under a scripted clock
 *
 * What happens to whom stands in a script (data/demo/practice.txt): people, dogs, and what was done on which day
 * before or after "today". Everything is performed as requests, in the order of time, so the record is as one that
 * grew. The same script, seed and day give the same head digest.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <gio/gio.h>

G_BEGIN_DECLS

typedef void (*SwDemoProgress) (guint done, guint total, gpointer data);

typedef struct
{
  guint patients;      /* at least so many: the script's dogs, then a crowd without courses of note */
  guint seed;
  SwDay today;
  const char *script;  /* file; NULL: the shipped one */
  SwDemoProgress progress;
  gpointer data;
} SwDemoOptions;

/* The minute of "today" up to which the practice has worked: what --at needs to go on from there. */
SwMoment sw_demo_now (const SwDemoOptions *options);

/* Makes the record in an absent or empty folder. A step that the rules refuse is an error naming the line of the
 * script. */
gboolean sw_demo_make (const char *directory, const SwDemoOptions *options, GError **error);

G_END_DECLS
