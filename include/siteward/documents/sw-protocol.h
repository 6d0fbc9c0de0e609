/* sw-protocol.h: one way of treating a tumour, as a document: the figures that decide
 *
 * Units inside: drug volumes nL, tumour volumes 1e-9 cm3 (which is (0.01 mm)^3, so products of three axes compare
 * directly), doses ug per kg, days relative to day 0 (the injection), both ends of a span counting. SW_UNKNOWN where a
 * protocol has no such figure or its value is not filled in: sw_protocol_figure() tells the two apart.
 *
 * Names of figures for sources and marks ("why"): strength, volume-rule, dose-per-volume, least-dose, largest-tumour,
 * most-per-treatment, most-per-weight, vial, look-back, tier-N/dose, GROUP/SUBSTANCE/phase-N/dose|every|days, a
 * question's code: data/README.md lists them all.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-document.h"
#include "sw-medicine.h"
#include "sw-region.h"
#include "sw-finding.h"

G_BEGIN_DECLS

typedef enum
{
  SW_VOLUME_HALF_PRODUCT,     /* L x W x H / 2 */
  SW_VOLUME_SIXTH_PI_PRODUCT, /* pi/6 x L x W x H */
  SW_VOLUME_SIXTH_PI_A_B2,    /* pi/6 x a x b x b, a the longest axis mean, b the next */
  SW_N_VOLUME_RULES
} SwVolumeRule;

const char *sw_volume_rule_code (SwVolumeRule rule); /* half-product, sixth-pi-product, sixth-pi-a-b2 */

typedef enum { SW_DOSE_CONSTANT, SW_DOSE_TIERS, SW_N_DOSE_RULES } SwDoseRule;

/* A range of tumour volumes with one dose per volume. A constant rule is one tier from 0 without an upper end. A volume
 * in no tier lies on an edge that the source leaves open: refused as a tier edge. */
typedef struct
{
  gint64 from;            /* 1e-9 cm3 */
  gint64 to;              /* 1e-9 cm3; SW_UNKNOWN: no upper end */
  gboolean from_included;
  gboolean to_included;
  gint64 nl_per_cm3;      /* SW_UNKNOWN: not filled in */
  const SwFigure *figure; /* the dose */
} SwTier;

/* A stretch of days of one medicine with one dose and interval. */
typedef struct
{
  gint64 ug_per_kg;
  gint64 every_hours;     /* 24: once a day, in the morning */
  int first_day, last_day; /* both count */
  const SwFigure *dose, *every, *days;
} SwPhase;

typedef struct
{
  char *substance;
  GPtrArray *phases; /* SwPhase, in order of days, never sharing one */
} SwAlternative;

/* Medicines of which one is chosen. */
typedef struct
{
  char *id;      /* corticosteroid, h1, h2, pain ... */
  char *title;
  gboolean optional;       /* planned only when the vet chooses it */
  GPtrArray *alternatives; /* SwAlternative; the first is the protocol's own, the others its substitutes */
} SwMedicineGroup;

/* What an answer to a question (sw-question.h) means in this protocol. A question that a protocol rules on has a ruling
 * for each of its answers; the figure has the question's name. */
typedef struct
{
  char *question;
  char *answer;
  SwSeverity severity; /* SW_MEETS, SW_NOTE, SW_VET_DECIDES, SW_NOT_KNOWN; SW_STOP: rules out */
  const SwFigure *figure;
} SwRuling;

/* Gate B's count. Every dose of the lead-in groups on the days before day 0, and the first of day 0; at least one dose
 * of each of the day groups on day 0, so long before the injection. */
typedef struct
{
  char **lead_in_groups;
  char **day_groups;
  gint64 least_minutes; /* before the injection */
  gint64 most_minutes;
  gint64 first_until;   /* minute of the day until which the very first lead-in dose counts at its actual time */
} SwGateRule;

typedef struct
{
  SwDocumentHead head;
  char *species;       /* "dog" */
  char *agent;         /* "tigilanol tiglate" */

  /* dose */
  gint64 strength;     /* thousandths of strength_unit in one mL: 1 mg/mL is 1000 */
  char *strength_unit; /* "mg", "IU" */
  SwVolumeRule volume_rule;
  SwDoseRule dose_rule;
  GPtrArray *tiers;    /* SwTier, smallest first */
  gint64 least_dose_nl;
  gint64 largest_tumour;           /* 1e-9 cm3 */
  gint64 most_nl_per_kg;           /* all tumours together */
  gint64 most_nl_per_treatment;    /* all tumours together */
  gint64 vial_nl;
  gboolean vial_single_use;
  gint64 look_back_days;           /* given on a day later than today - this counts into both mL limits */

  /* selection */
  gboolean regions[SW_N_DEPTHS][SW_N_REGIONS]; /* where a tumour of that depth may be treated */
  gboolean function_regions[SW_N_REGIONS];     /* lost tissue harms function: vet decides */
  gint64 least_age_months;         /* under it: vet decides */
  gint64 stage_days;               /* staging older than this: vet decides */
  gint64 growth_permille;          /* more than this over the work-up volume: vet decides */
  GPtrArray *rulings;              /* SwRuling */

  /* medicines around it */
  int medicine_first_day, medicine_last_day;
  GPtrArray *groups;               /* SwMedicineGroup */
  SwGateRule gate;

  /* after it */
  gint64 first_contact_hours;
  GArray *visit_days;              /* int, rising */
  int score_day, score_first_day, score_last_day; /* a score outside the span does not count as that of score_day */
  gint64 retreat_day;              /* a second injection at the earliest on this day ... */
  gint64 retreat_after_score_days; /* ... and so many days after the score; the later of both */

  /* texts */
  GPtrArray *handler_rules;        /* SwFigure (borrowed) */
  GPtrArray *cautions;             /* SwFigure (borrowed) */
} SwProtocol;

/* @medicines: SwMedicine that the protocol may name, checked against their ranges and intervals; NULL: not checked (a
 * document of the record was, when it was adopted). */
SwProtocol *sw_protocol_parse (const char *name, GBytes *bytes, const GPtrArray *medicines, GError **error);
void sw_protocol_free (SwProtocol *protocol);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwProtocol, sw_protocol_free)

/* NULL: the protocol has no such figure. */
const SwFigure *sw_protocol_figure (const SwProtocol *protocol, const char *name);

/* What this answer means here; NULL: the protocol says nothing about that question. */
const SwRuling *sw_protocol_ruling (const SwProtocol *protocol, const char *question, const char *answer);

const SwMedicineGroup *sw_protocol_group (const SwProtocol *protocol, const char *id);
const SwAlternative *sw_group_alternative (const SwMedicineGroup *group, const char *substance);

G_END_DECLS
