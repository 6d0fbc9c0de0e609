/* sw-values.h: the small vocabularies that facts are written in
 *
 * Stored as their numbers: never renumber, only add at the end. Names are for people and translated.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One person may hold several. */
typedef enum
{
  SW_ROLE_TECHNICIAN = 1 << 0,
  SW_ROLE_VET = 1 << 1,
  SW_ROLE_MANAGER = 1 << 2,
} SwRole;
#define SW_ALL_ROLES (SW_ROLE_TECHNICIAN | SW_ROLE_VET | SW_ROLE_MANAGER)

typedef enum { SW_DOCUMENT_PROTOCOL, SW_DOCUMENT_MEDICINE, SW_DOCUMENT_INTERACTIONS, SW_N_DOCUMENT_KINDS } SwDocumentKind;

typedef enum { SW_SEX_MALE, SW_SEX_FEMALE, SW_N_SEXES } SwSex;

typedef enum { SW_VIEW_LEFT, SW_VIEW_RIGHT, SW_VIEW_BELOW, SW_VIEW_ABOVE, SW_N_VIEWS } SwBodyView;

typedef enum
{
  SW_FORM_TABLET,
  SW_FORM_CAPSULE,
  SW_FORM_LIQUID,       /* by mouth, human or veterinary pack: xylitol is asked */
  SW_FORM_SOFT_TABLET,  /* chewable: xylitol is asked */
  SW_FORM_INJECTION,
  SW_FORM_DEPOT,        /* long-acting injection: the long washout */
  SW_FORM_COLLAR_OR_DIP,
  SW_N_FORMS
} SwMedicineForm;

typedef enum { SW_CONSENT_GIVEN, SW_CONSENT_WITHDRAWN, SW_N_CONSENT_STATES } SwConsentState;

/* What the consent conversation covered (domain 6). All are needed. */
typedef enum
{
  SW_CONSENT_ALTERNATIVES = 1 << 0, /* including surgery */
  SW_CONSENT_WOUND = 1 << 1,        /* intended, may be large, photographs shown, heals in weeks */
  SW_CONSENT_SECOND = 1 << 2,       /* a second injection may follow */
  SW_CONSENT_RISKS = 1 << 3,        /* degranulation and death */
  SW_CONSENT_HOME = 1 << 4,         /* gloves; children, pregnant people, other pets away until healed */
  SW_CONSENT_COST = 1 << 5,
  SW_CONSENT_NIGHT = 1 << 6,        /* who answers at night */
} SwConsentPoint;
#define SW_CONSENT_ALL_POINTS 0x7f

typedef enum
{
  SW_PLAN_FIRST,
  SW_PLAN_MOVED,        /* the day moved, the corticosteroid goes on without a gap */
  SW_PLAN_LED_IN_ANEW,  /* the day moved, stopped and begun again */
  SW_PLAN_REWEIGHED,    /* recomputed on another weight */
  SW_PLAN_CHANGED,      /* another choice of medicine */
  SW_N_PLAN_CAUSES
} SwPlanCause;

/* The state recorded for a dose. Planned, due and not known are no recorded states: they follow from the clock. */
typedef enum
{
  SW_DOSE_GIVEN,
  SW_DOSE_LATE,
  SW_DOSE_MISSED,
  SW_DOSE_VOMITED,
  SW_DOSE_STOPPED,
  SW_N_DOSE_STATES
} SwDoseState;

typedef enum { SW_READ_ALOUD_BEFORE_RELEASE, SW_READ_ALOUD_AFTER_DRAWING, SW_N_READ_ALOUD_STAGES } SwReadAloudStage;

typedef enum { SW_VISIT_HERE, SW_VISIT_PHONE, SW_VISIT_PHOTOGRAPH, SW_N_VISIT_MODES } SwVisitMode;

typedef enum { SW_COVER_OPEN, SW_COVER_LOOSE, SW_N_COVERS } SwCover;

typedef enum { SW_WOUND_NONE_YET, SW_WOUND_OPEN, SW_WOUND_CLOSED, SW_N_WOUND_STATES } SwWoundState;

/* What the looked-at site shows when three axes do not say it. */
typedef enum
{
  SW_LOOK_GONE,           /* no tumour by sight and touch; skin closed, or the whole bed visible, clean and without mass */
  SW_LOOK_TOO_SMALL,      /* present, too small to measure: the smaller of 5 mm and baseline counts */
  SW_LOOK_HIDDEN,         /* slough or crust hides the bed: not evaluable */
  SW_LOOK_NOT_MEASURED,   /* not evaluable */
  SW_N_LOOK_STATES
} SwLookState;

/* Response after the canine RECIST consensus (domain 8). */
typedef enum
{
  SW_CATEGORY_COMPLETE,
  SW_CATEGORY_PARTIAL,
  SW_CATEGORY_STABLE,
  SW_CATEGORY_PROGRESSIVE,
  SW_CATEGORY_NOT_EVALUABLE,
  SW_CATEGORY_RECURRENCE,
  SW_CATEGORY_NON_CR_NON_PD, /* a dog without targets */
  SW_N_CATEGORIES
} SwCategory;

typedef enum
{
  SW_NON_TARGETS_NONE,
  SW_NON_TARGETS_GONE,
  SW_NON_TARGETS_PERSISTING,
  SW_NON_TARGETS_NOT_ASSESSED,
  SW_NON_TARGETS_PROGRESSIVE,
  SW_N_NON_TARGETS
} SwNonTargets;

typedef enum
{
  SW_END_COMPLETED,
  SW_END_DIED,
  SW_END_EUTHANISED,
  SW_END_LOST,        /* 30 days overdue, two attempts */
  SW_END_WITHDRAWN,   /* by the client */
  SW_END_STOPPED,     /* by the vet */
  SW_END_TRANSFERRED,
  SW_N_ENDS
} SwEnd;

typedef enum { SW_DEATH_TUMOUR, SW_DEATH_TREATMENT, SW_DEATH_OTHER, SW_DEATH_UNKNOWN, SW_N_DEATH_CAUSES } SwDeathCause;

/* Names for people, translated: "given", "late", ... (arguments out of range give NULL and a critical). */
const char *sw_document_kind_code (SwDocumentKind kind); /* protocol, medicine, interactions: not translated */
const char *sw_role_name (SwRole role);
char *sw_roles_names (gint64 roles); /* "technician, vet" */
const char *sw_sex_name (SwSex sex);
const char *sw_body_view_name (SwBodyView view);
const char *sw_medicine_form_name (SwMedicineForm form);
const char *sw_consent_point_name (SwConsentPoint point);
const char *sw_plan_cause_name (SwPlanCause cause);
const char *sw_dose_state_name (SwDoseState state);
const char *sw_visit_mode_name (SwVisitMode mode);
const char *sw_cover_name (SwCover cover);
const char *sw_wound_state_name (SwWoundState state);
const char *sw_look_state_name (SwLookState state);
const char *sw_category_code (SwCategory category); /* CR PR SD PD NE RECURRENCE NON-CR/NON-PD: the trade's own, not translated */
const char *sw_category_name (SwCategory category);
const char *sw_non_targets_name (SwNonTargets state);
const char *sw_end_name (SwEnd end);
const char *sw_death_cause_name (SwDeathCause cause);

G_END_DECLS
