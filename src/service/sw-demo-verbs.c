/* sw-demo-verbs.c: the verbs of the demo's script, with the time at which each is usually done
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-demo-private.h"

#define AT(hours, minutes) ((hours) * 60 + (minutes))

static const struct
{
  const char *verb;
  SwDemoPerform perform;
  int minute;
} verbs[] = {
  { "set", sw_demo_set, AT (8, 15) },
  { "register", sw_demo_register, AT (9, 0) },
  { "weigh", sw_demo_weigh, AT (9, 5) },
  { "tumour", sw_demo_add_tumour, AT (9, 10) },
  { "medicine", sw_demo_medicine, AT (9, 15) },
  { "work-up", sw_demo_work_up, AT (9, 20) },
  { "open", sw_demo_open, AT (9, 25) },
  { "reason", sw_demo_reason, AT (9, 27) },
  { "consent", sw_demo_consent, AT (9, 30) },
  { "sign", sw_demo_sign, AT (9, 35) },
  { "move", sw_demo_move, AT (10, 30) },
  { "dose", sw_demo_dose, AT (20, 10) },
  { "tell", sw_demo_tell, AT (20, 40) },
  { "replace", sw_demo_replace, AT (8, 30) },
  { "measure", sw_demo_measure, AT (9, 15) },
  { "ask", sw_demo_ask, AT (9, 25) },
  { "read-aloud", sw_demo_read_aloud, AT (9, 30) },
  { "release", sw_demo_release, AT (9, 35) },
  { "inject", sw_demo_inject, AT (10, 10) },
  { "observe", sw_demo_observe, AT (10, 40) },
  { "discharge", sw_demo_discharge, AT (12, 20) },
  { "visit", sw_demo_visit, AT (11, 0) },
  { "size", sw_demo_size, AT (11, 5) },
  { "score", sw_demo_score, AT (11, 15) },
  { "recur", sw_demo_recur, AT (11, 20) },
  { "contact", sw_demo_contact, AT (16, 30) },
  { "end", sw_demo_end, AT (17, 0) },
};

SwDemoPerform
sw_demo_verb (const char *verb, int *minute)
{
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (g_str_equal (verbs[i].verb, verb))
      {
        *minute = verbs[i].minute;
        return verbs[i].perform;
      }
  return NULL;
}

/* The first part holds the minute at which the macro begins. */
static const SwDemoPart prepare[]
    = { { "prepare", AT (9, 25) }, { "open", 0 }, { "consent", 5 }, { "sign", 10 }, { NULL, 0 } };
static const SwDemoPart come[] = { { "come", AT (9, 0) }, { "register", 0 }, { "weigh", 5 }, { NULL, 0 } };
static const SwDemoPart told[] = { { "told", AT (8, 40) }, { "tell", 0 }, { "tell", 12 * 60 }, { NULL, 0 } };
static const SwDemoPart ready[]
    = { { "ready", AT (8, 50) }, { "weigh", 0 }, { "measure", 5 }, { "ask", 15 }, { NULL, 0 } };
static const SwDemoPart treat[] = {
  { "treat", AT (9, 10) }, { "weigh", 0 },       { "measure", 5 },  { "ask", 15 },      { "read-aloud", 20 },
  { "release", 25 },       { "inject", 60 },     { "observe", 90 }, { "observe", 120 }, { "observe", 150 },
  { "observe", 180 },      { "discharge", 190 }, { NULL, 0 },
};

const SwDemoPart *
sw_demo_macro (const char *verb)
{
  static const SwDemoPart *const macros[] = { come, prepare, told, ready, treat };

  for (guint i = 0; i < G_N_ELEMENTS (macros); i++)
    if (g_str_equal (macros[i][0].verb, verb))
      return macros[i];
  return NULL;
}
