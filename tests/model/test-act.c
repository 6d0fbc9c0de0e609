/* test-act.c: the whole act x role table of domain 10, spelled out here once more, and the small vocabularies
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-act.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

/* Domain 10, row by row: t = technician, v = vet, m = manager; a capital letter may, a small one may not. */
static const struct
{
  const char *code;
  const char *may;
} rows[] = {
  /* client, patient, weight, readings, recheck figures, dose ticks, calls, consent received */
  { "register-client", "TVm" },
  { "register-patient", "TVm" },
  { "weigh", "TVm" },
  { "record-reading", "TVm" },
  { "record-recheck", "TVm" },
  { "record-dose", "TVm" },
  { "record-contact", "TVm" },
  { "record-consent", "TVm" },
  { "record-medicine-taken", "TVm" },
  /* register a tumour, second check, move the day on the vet's word; the questions of the day belong to the same
   * hands */
  { "register-tumour", "TVm" },
  { "second-check", "TVm" },
  { "move-day", "TVm" },
  { "ask-today", "TVm" },
  /* work-up facts, suitability reasons, plan of medicines, decide a missed dose, release, injection, score, amend,
   * end */
  { "answer-work-up", "tVm" },
  { "give-reason", "tVm" },
  { "open-course", "tVm" },
  { "sign-plan", "tVm" },
  { "order-replacement", "tVm" },
  { "stop-dose", "tVm" },
  { "release-dose", "tVm" },
  { "record-injection", "tVm" },
  { "discharge", "tVm" },
  { "score", "tVm" },
  { "record-recurrence", "tVm" },
  { "amend-released", "tVm" },
  { "end-course", "tVm" },
  /* adopt a protocol or a medicine document; clinical settings */
  { "adopt-document", "tVm" },
  { "change-setting", "tVm" },
  /* people, practice name and address, backup, restore, import, export */
  { "manage-people", "tvM" },
  { "keep-record", "tvM" },
};

START_TEST (test_table)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (gint64 roles = 0; roles <= SW_ALL_ROLES; roles++)
      {
        int kind = sw_act_from_code (rows[i].code);
        gboolean may = (strchr (rows[i].may, 'T') && (roles & SW_ROLE_TECHNICIAN))
                       || (strchr (rows[i].may, 'V') && (roles & SW_ROLE_VET))
                       || (strchr (rows[i].may, 'M') && (roles & SW_ROLE_MANAGER));

        ck_assert_msg (kind >= 0, "no act %s", rows[i].code);
        ck_assert_msg (sw_act_allowed (kind, roles) == may, "%s with roles %d", rows[i].code, (int) roles);
      }
}
END_TEST

START_TEST (test_no_act_left_out)
{
  ck_assert_int_eq (G_N_ELEMENTS (rows) + 1, SW_N_ACTS); /* the founding act beside them */
  ck_assert (sw_act_allowed (SW_ACT_FOUND_RECORD, 0));
  for (int kind = 0; kind < SW_N_ACTS; kind++)
    {
      ck_assert_int_eq (sw_act_from_code (sw_act_code (kind)), kind);
      ck_assert_int_gt (strlen (sw_act_name (kind)), 0);
      ck_assert_int_ne (sw_act_roles (kind), 0);
    }
  ck_assert_int_eq (sw_act_from_code ("no-such-act"), -1);
  ck_assert_int_eq (sw_act_from_code (NULL), -1);
}
END_TEST

#define CHECK_NAMES(function, n) \
  for (int value = 0; value < (n); value++) \
    for (int other = 0; other < (n); other++) \
      { \
        ck_assert_ptr_nonnull (function (value)); \
        ck_assert_int_gt (strlen (function (value)), 0); \
        ck_assert_int_eq (g_str_equal (function (value), function (other)), value == other); \
      }

START_TEST (test_every_value_has_its_own_name)
{
  CHECK_NAMES (sw_document_kind_code, SW_N_DOCUMENT_KINDS);
  CHECK_NAMES (sw_sex_name, SW_N_SEXES);
  CHECK_NAMES (sw_body_view_name, SW_N_VIEWS);
  CHECK_NAMES (sw_medicine_form_name, SW_N_FORMS);
  CHECK_NAMES (sw_plan_cause_name, SW_N_PLAN_CAUSES);
  CHECK_NAMES (sw_dose_state_name, SW_N_DOSE_STATES);
  CHECK_NAMES (sw_visit_mode_name, SW_N_VISIT_MODES);
  CHECK_NAMES (sw_cover_name, SW_N_COVERS);
  CHECK_NAMES (sw_wound_state_name, SW_N_WOUND_STATES);
  CHECK_NAMES (sw_look_state_name, SW_N_LOOK_STATES);
  CHECK_NAMES (sw_category_code, SW_N_CATEGORIES);
  CHECK_NAMES (sw_category_name, SW_N_CATEGORIES);
  CHECK_NAMES (sw_non_targets_name, SW_N_NON_TARGETS);
  CHECK_NAMES (sw_end_name, SW_N_ENDS);
  CHECK_NAMES (sw_death_cause_name, SW_N_DEATH_CAUSES);
}
END_TEST

START_TEST (test_bits)
{
  g_autofree char *all = sw_roles_names (SW_ALL_ROLES);
  g_autofree char *none = sw_roles_names (0);

  ck_assert_str_eq (all, "technician, vet, manager");
  ck_assert_str_eq (none, "");
  for (int bit = 1; bit <= SW_CONSENT_ALL_POINTS; bit <<= 1)
    ck_assert_int_gt (strlen (sw_consent_point_name (bit)), 0);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("act");
  TCase *tcase = tcase_create ("act");
  SRunner *runner;

  tcase_add_test (tcase, test_table);
  tcase_add_test (tcase, test_no_act_left_out);
  tcase_add_test (tcase, test_every_value_has_its_own_name);
  tcase_add_test (tcase, test_bits);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
