/* sw-plan-rows-private.h: the medicine plan as rows of words, and what is dispensed for it
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-case.h"
#include "sw-schedule.h"

G_BEGIN_DECLS

/* One medicine, one dose, one run of days. */
typedef struct
{
  char *group;
  char *medicine;
  char *dose;    /* "0.5 mg/kg every 12 h" */
  char *mark;    /* "[memory]" */
  char *from;
  char *to;
  guint count;
  char *tablets; /* "12.3 mg: 1/2 x 25 mg = 12.5 mg (+1.6 %)" */
} SwPlanRow;

void sw_plan_row_free (SwPlanRow *row);

/* Of a schedule that is about to be signed; of the doses now planned. (transfer full) SwPlanRow */
GPtrArray *sw_plan_rows_of_schedule (const SwSchedule *schedule, SwDay treat_day);
GPtrArray *sw_plan_rows_of_doses (const SwCase *c, const GPtrArray *doses);

/* "prednisolone 25 mg: 9 tablets for 17 doses", a line each. (transfer full) char * */
GPtrArray *sw_dispense_lines (const GPtrArray *doses);

G_END_DECLS
