/* sw-medicine.h: one document per active substance: doses, intervals, strengths, dividing, washout, classes
 *
 * Doses in ug per kg of body weight, strengths in ug (ug per mL for liquids), intervals in hours. SW_UNKNOWN where the
 * document has no such figure: aspirin has a washout and no dose.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-document.h"
#include "sw-unknown.h"

G_BEGIN_DECLS

typedef enum
{
  SW_DIVIDE_WHOLE,  /* capsules, gastro-resistant tablets */
  SW_DIVIDE_HALVES,
  SW_N_DIVIDES
} SwDivide;

typedef struct
{
  gint64 ug;            /* of one tablet or capsule; of one mL of a liquid */
  SwMedicineForm form;  /* SW_FORM_TABLET, SW_FORM_CAPSULE, SW_FORM_LIQUID or SW_FORM_SOFT_TABLET */
  const SwFigure *figure;
} SwStrength;

typedef struct
{
  SwDocumentHead head;       /* head.id is the substance */
  gint64 target_ug_per_kg; /* per dose; SW_UNKNOWN: the vet says it within low and high (tramadol), or no dose at all */
  gint64 low_ug_per_kg;
  gint64 high_ug_per_kg;     /* inclusive */
  gint64 first_ug_per_kg;    /* a first dose that differs (meloxicam), else SW_UNKNOWN */
  gboolean at_least;         /* target is a floor: fewest pieces at or above, up to and including high */
  gint64 least_hours;        /* between doses; SW_UNKNOWN without a dose */
  gint64 most_hours;
  SwDivide divide;
  gint64 washout_days; /* before a corticosteroid and after it; SW_UNKNOWN: not known, or not needed (see classes) */
  GPtrArray *strengths;      /* SwStrength, smallest first */
  char **classes;            /* corticosteroid, nsaid, h1, h2, acid-blocker, antihistamine, opioid ... */
  gboolean single_substance; /* the pack must hold nothing else: asked for each pack */
  gboolean controlled;       /* a controlled substance */
  GPtrArray *cautions;       /* SwFigure (borrowed): texts */
} SwMedicine;

SwMedicine *sw_medicine_parse (const char *name, GBytes *bytes, GError **error);
void sw_medicine_free (SwMedicine *medicine);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwMedicine, sw_medicine_free)

gboolean sw_medicine_has_class (const SwMedicine *medicine, const char *class_code);

/* The medicine of a GPtrArray of SwMedicine with this substance, the last one added if several; NULL: none. */
const SwMedicine *sw_medicines_find (const GPtrArray *medicines, const char *substance);

G_END_DECLS
