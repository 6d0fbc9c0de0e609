/* sw-region.h: the one vocabulary of where a tumour lies on a dog, and in which layer
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Regions in body order, head to tail, then limbs from the trunk outwards. "Distal to the elbow" begins below the joint; the
 * joint itself is a region of its own because a rule hangs on it (subcutaneous tumours: at or distal to elbow or hock). */
typedef enum
{
  SW_REGION_HEAD,
  SW_REGION_MUZZLE,
  SW_REGION_LIP,
  SW_REGION_EYELID,
  SW_REGION_PINNA,
  SW_REGION_NECK,
  SW_REGION_THORAX,
  SW_REGION_ABDOMEN,
  SW_REGION_FLANK,
  SW_REGION_BACK,
  SW_REGION_PERINEUM,
  SW_REGION_PREPUCE_OR_VULVA,
  SW_REGION_SCROTUM,
  SW_REGION_MAMMARY,
  SW_REGION_TAIL,
  SW_REGION_FORELIMB_PROXIMAL,
  SW_REGION_ELBOW,
  SW_REGION_FORELIMB_DISTAL,
  SW_REGION_FOREPAW,
  SW_REGION_FORE_DIGIT,
  SW_REGION_HINDLIMB_PROXIMAL,
  SW_REGION_HOCK,
  SW_REGION_HINDLIMB_DISTAL,
  SW_REGION_HINDPAW,
  SW_REGION_HIND_DIGIT,
  SW_N_REGIONS
} SwRegion;

typedef enum { SW_SIDE_LEFT, SW_SIDE_RIGHT, SW_SIDE_MIDLINE, SW_N_SIDES } SwSide;

typedef enum { SW_DEPTH_CUTANEOUS, SW_DEPTH_SUBCUTANEOUS, SW_DEPTH_OTHER, SW_N_DEPTHS } SwDepth;

/* Codes are stable, lower-case and stored in documents and exports; names are for people and translated. From a code: the value,
 * or -1 where the code is unknown. */
int sw_region_from_code (const char *code);
const char *sw_region_code (SwRegion region);
const char *sw_region_name (SwRegion region);
int sw_side_from_code (const char *code);
const char *sw_side_code (SwSide side);
const char *sw_side_name (SwSide side);
int sw_depth_from_code (const char *code);
const char *sw_depth_code (SwDepth depth);
const char *sw_depth_name (SwDepth depth);

G_END_DECLS
