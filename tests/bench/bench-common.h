/* bench-common.h: what the measurements share
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-day.h"

#include <glib.h>

/* The day of the records measured: 14 May 2026, and the moment at which the practice stands. */
#define BENCH_TODAY 20587
#define BENCH_NOW (SwMoment){ BENCH_TODAY, 580 }
#define BENCH_AT "2026-05-14T09:40"

/* The folder of the build; ends the program where that lies in memory, as commits cost nothing there. */
const char *bench_folder (void);
/* A practice of invented dogs in the folder of the build, made through service once and again when the schema changed. */
char *bench_record (guint patients);
double bench_median (double *values, guint n);
/* Milliseconds since. */
double bench_ms (gint64 start_us);
/* Prints a line, and keeps whether a target was missed. */
void bench_report (const char *what, double value, const char *unit, double target);
/* What main returns. */
int bench_status (void);
