/* sw-values.c: names of the small vocabularies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-values.h"

#include <glib/gi18n-lib.h>

/* The name at `value`, translated: every vocabulary is an array as long as its enum. */
#define NAME_AT(names, value) name_at (names, G_N_ELEMENTS (names), (guint) (value))

static const char *
name_at (const char *const *names, guint n, guint value)
{
  g_return_val_if_fail (value < n, NULL);
  return _(names[value]);
}

static const struct
{
  SwRole role;
  const char *name;
} roles_table[] = {
  { SW_ROLE_TECHNICIAN, N_("technician") },
  { SW_ROLE_VET, N_("vet") },
  { SW_ROLE_MANAGER, N_("manager") },
};

static const struct
{
  SwConsentPoint point;
  const char *name;
} consent_points[] = {
  { SW_CONSENT_ALTERNATIVES, N_("the alternatives, surgery among them") },
  { SW_CONSENT_WOUND, N_("a wound is intended, may be large and heals in weeks; photographs shown") },
  { SW_CONSENT_SECOND, N_("a second injection may follow") },
  { SW_CONSENT_RISKS, N_("risks: release of histamine (degranulation), and death") },
  { SW_CONSENT_HOME, N_("at home: gloves for fluid and slough; children, pregnant people and other pets away until "
                        "healed") },
  { SW_CONSENT_COST, N_("the cost") },
  { SW_CONSENT_NIGHT, N_("who answers at night") },
};

static const char *const document_kind_codes[SW_N_DOCUMENT_KINDS] = {
  [SW_DOCUMENT_PROTOCOL] = "protocol",
  [SW_DOCUMENT_MEDICINE] = "medicine",
  [SW_DOCUMENT_INTERACTIONS] = "interactions",
};

static const char *const sex_names[SW_N_SEXES] = {
  [SW_SEX_MALE] = N_("male"),
  [SW_SEX_FEMALE] = N_("female"),
};

static const char *const view_names[SW_N_VIEWS] = {
  [SW_VIEW_LEFT] = N_("left side"),
  [SW_VIEW_RIGHT] = N_("right side"),
  [SW_VIEW_BELOW] = N_("from below"),
  [SW_VIEW_ABOVE] = N_("from above"),
};

static const char *const form_names[SW_N_FORMS] = {
  [SW_FORM_TABLET] = N_("tablet"),
  [SW_FORM_CAPSULE] = N_("capsule"),
  [SW_FORM_LIQUID] = N_("liquid by mouth"),
  [SW_FORM_SOFT_TABLET] = N_("soft or chewable tablet"),
  [SW_FORM_INJECTION] = N_("injection"),
  [SW_FORM_DEPOT] = N_("long-acting injection"),
  [SW_FORM_COLLAR_OR_DIP] = N_("collar or dip"),
};

static const char *const plan_cause_names[SW_N_PLAN_CAUSES] = {
  [SW_PLAN_FIRST] = N_("first plan"),
  [SW_PLAN_MOVED] = N_("day moved, corticosteroid goes on"),
  [SW_PLAN_LED_IN_ANEW] = N_("day moved, led in anew"),
  [SW_PLAN_REWEIGHED] = N_("recomputed on another weight"),
  [SW_PLAN_CHANGED] = N_("another choice of medicine"),
};

static const char *const dose_state_names[SW_N_DOSE_STATES] = {
  [SW_DOSE_GIVEN] = N_("given"),
  [SW_DOSE_LATE] = N_("late"),
  [SW_DOSE_MISSED] = N_("missed"),
  [SW_DOSE_VOMITED] = N_("vomited"),
  [SW_DOSE_STOPPED] = N_("stopped"),
};

static const char *const visit_mode_names[SW_N_VISIT_MODES] = {
  [SW_VISIT_HERE] = N_("seen here"),
  [SW_VISIT_PHONE] = N_("by phone"),
  [SW_VISIT_PHOTOGRAPH] = N_("by photograph"),
};

static const char *const cover_names[SW_N_COVERS] = {
  [SW_COVER_OPEN] = N_("left open"),
  [SW_COVER_LOOSE] = N_("covered loosely"),
};

static const char *const wound_state_names[SW_N_WOUND_STATES] = {
  [SW_WOUND_NONE_YET] = N_("no wound yet"),
  [SW_WOUND_OPEN] = N_("open"),
  [SW_WOUND_CLOSED] = N_("closed"),
};

static const char *const look_state_names[SW_N_LOOK_STATES] = {
  [SW_LOOK_GONE] = N_("gone: no tumour by sight and touch"),
  [SW_LOOK_TOO_SMALL] = N_("present, too small to measure"),
  [SW_LOOK_HIDDEN] = N_("hidden by slough or crust"),
  [SW_LOOK_NOT_MEASURED] = N_("not measured"),
};

static const char *const category_codes[SW_N_CATEGORIES] = {
  [SW_CATEGORY_COMPLETE] = "CR",
  [SW_CATEGORY_PARTIAL] = "PR",
  [SW_CATEGORY_STABLE] = "SD",
  [SW_CATEGORY_PROGRESSIVE] = "PD",
  [SW_CATEGORY_NOT_EVALUABLE] = "NE",
  [SW_CATEGORY_RECURRENCE] = "RECURRENCE",
  [SW_CATEGORY_NON_CR_NON_PD] = "NON-CR/NON-PD",
};

static const char *const category_names[SW_N_CATEGORIES] = {
  [SW_CATEGORY_COMPLETE] = N_("complete response"),
  [SW_CATEGORY_PARTIAL] = N_("partial response"),
  [SW_CATEGORY_STABLE] = N_("stable disease"),
  [SW_CATEGORY_PROGRESSIVE] = N_("progressive disease"),
  [SW_CATEGORY_NOT_EVALUABLE] = N_("not evaluable"),
  [SW_CATEGORY_RECURRENCE] = N_("recurrence"),
  [SW_CATEGORY_NON_CR_NON_PD] = N_("neither complete nor progressive"),
};

static const char *const non_targets_names[SW_N_NON_TARGETS] = {
  [SW_NON_TARGETS_NONE] = N_("none known"),
  [SW_NON_TARGETS_GONE] = N_("gone"),
  [SW_NON_TARGETS_PERSISTING] = N_("persisting"),
  [SW_NON_TARGETS_NOT_ASSESSED] = N_("not assessed"),
  [SW_NON_TARGETS_PROGRESSIVE] = N_("progressive"),
};

static const char *const end_names[SW_N_ENDS] = {
  [SW_END_COMPLETED] = N_("completed"),
  [SW_END_DIED] = N_("died"),
  [SW_END_EUTHANISED] = N_("euthanised"),
  [SW_END_LOST] = N_("lost to follow-up"),
  [SW_END_WITHDRAWN] = N_("withdrawn by the client"),
  [SW_END_STOPPED] = N_("stopped by the vet"),
  [SW_END_TRANSFERRED] = N_("transferred"),
};

static const char *const death_cause_names[SW_N_DEATH_CAUSES] = {
  [SW_DEATH_TUMOUR] = N_("the tumour"),
  [SW_DEATH_TREATMENT] = N_("the treatment"),
  [SW_DEATH_OTHER] = N_("another cause"),
  [SW_DEATH_UNKNOWN] = N_("unknown cause"),
};

const char *
sw_document_kind_code (SwDocumentKind kind)
{
  g_return_val_if_fail ((guint) kind < SW_N_DOCUMENT_KINDS, NULL);
  return document_kind_codes[kind];
}

const char *
sw_role_name (SwRole role)
{
  for (guint i = 0; i < G_N_ELEMENTS (roles_table); i++)
    if (roles_table[i].role == role)
      return _(roles_table[i].name);
  g_return_val_if_reached (NULL);
}

char *
sw_roles_names (gint64 roles)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (roles_table); i++)
    if (roles & roles_table[i].role)
      g_string_append_printf (names, "%s%s", names->len ? ", " : "", _(roles_table[i].name));
  return g_string_free (names, FALSE);
}

const char *
sw_consent_point_name (SwConsentPoint point)
{
  for (guint i = 0; i < G_N_ELEMENTS (consent_points); i++)
    if (consent_points[i].point == point)
      return _(consent_points[i].name);
  g_return_val_if_reached (NULL);
}

const char *
sw_category_code (SwCategory category)
{
  g_return_val_if_fail ((guint) category < SW_N_CATEGORIES, NULL);
  return category_codes[category];
}

const char *
sw_sex_name (SwSex sex)
{
  return NAME_AT (sex_names, sex);
}

const char *
sw_body_view_name (SwBodyView view)
{
  return NAME_AT (view_names, view);
}

const char *
sw_medicine_form_name (SwMedicineForm form)
{
  return NAME_AT (form_names, form);
}

const char *
sw_plan_cause_name (SwPlanCause cause)
{
  return NAME_AT (plan_cause_names, cause);
}

const char *
sw_dose_state_name (SwDoseState state)
{
  return NAME_AT (dose_state_names, state);
}

const char *
sw_visit_mode_name (SwVisitMode mode)
{
  return NAME_AT (visit_mode_names, mode);
}

const char *
sw_cover_name (SwCover cover)
{
  return NAME_AT (cover_names, cover);
}

const char *
sw_wound_state_name (SwWoundState state)
{
  return NAME_AT (wound_state_names, state);
}

const char *
sw_look_state_name (SwLookState state)
{
  return NAME_AT (look_state_names, state);
}

const char *
sw_category_name (SwCategory category)
{
  return NAME_AT (category_names, category);
}

const char *
sw_non_targets_name (SwNonTargets state)
{
  return NAME_AT (non_targets_names, state);
}

const char *
sw_end_name (SwEnd end)
{
  return NAME_AT (end_names, end);
}

const char *
sw_death_cause_name (SwDeathCause cause)
{
  return NAME_AT (death_cause_names, cause);
}
