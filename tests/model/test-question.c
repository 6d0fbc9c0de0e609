/* test-question.c: the vocabulary of questions is well formed and holds what the domain asks
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-question.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static gboolean
is_code (const char *code)
{
  return *code != '\0' && strspn (code, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen (code);
}

START_TEST (test_well_formed)
{
  guint n;
  const SwQuestion *all = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    {
      ck_assert_msg (is_code (all[i].code), "%s", all[i].code);
      ck_assert_ptr_eq (sw_question (all[i].code), &all[i]); /* no code twice */
      ck_assert_int_gt (strlen (all[i].heading), 0);
      ck_assert_int_gt (strlen (all[i].name), 0);
      ck_assert_int_ge (all[i].n_choices, 2);
      ck_assert_int_eq (all[i].extra == SW_EXTRA_NONE, all[i].extra_name == NULL);
      for (guint k = 0; k < all[i].n_choices; k++)
        {
          ck_assert_msg (is_code (all[i].choices[k].code), "%s of %s", all[i].choices[k].code, all[i].code);
          ck_assert_ptr_eq (sw_question_choice (&all[i], all[i].choices[k].code), &all[i].choices[k]);
          ck_assert_int_gt (strlen (all[i].choices[k].name), 0);
        }
      ck_assert_ptr_null (sw_question_choice (&all[i], "no-such-answer"));
      ck_assert_ptr_null (sw_question_choice (&all[i], NULL));
    }
  ck_assert_ptr_null (sw_question ("no-such-question"));
}
END_TEST

/* A page shows a heading once: questions of one group stand together. */
START_TEST (test_headings_together)
{
  guint n;
  const SwQuestion *all = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    for (guint k = i + 2; k < n; k++)
      if (g_str_equal (all[i].heading, all[k].heading))
        ck_assert_str_eq (all[k - 1].heading, all[i].heading);
}
END_TEST

/* Domain 4 and the diseases of 3.2 (work-up), domain 5 gate B and domain 6 (treatment day). Species, age, volume,
 * region and depth come from other facts. */
START_TEST (test_nothing_left_out)
{
  static const char *const of_tumour[] = { "sample", "grade", "resectable", "reachable", "surface", "surgical-bed",
                                           "function-site", "surface-today", "marked-today" };
  static const char *const of_dog[] = {
    "node", "distant", "stage", "stage-edition", "mediator-signs", "breeding", "diabetes", "hyperadrenocorticism",
    "gastric-ulcer", "corneal-ulcer", "infection", "heart-disease", "kidney-disease", "liver-disease",
    "medicine-history", "live-vaccine", "packs-xylitol", "vomiting-today", "stool-today", "appetite-today",
    "nsaid-today", "nodes-today", "new-lumps-today", "suitability-today", "adrenaline-today", "fluids-today", "antihistamine-today",
    "corticosteroid-today", "oxygen-today", "vein-access-today", "eye-protection-today", "gloves-today",
    "luer-lock-today", "sharps-box-today", "restraint-today", "emetic-sedative-today", "food-today", "water-today",
  };
  guint n;

  sw_questions (&n);
  ck_assert_int_eq (n, G_N_ELEMENTS (of_tumour) + G_N_ELEMENTS (of_dog));
  for (guint i = 0; i < G_N_ELEMENTS (of_tumour); i++)
    ck_assert_int_eq (sw_question (of_tumour[i])->of, SW_ASKED_OF_TUMOUR);
  for (guint i = 0; i < G_N_ELEMENTS (of_dog); i++)
    {
      const SwQuestion *question = sw_question (of_dog[i]);

      ck_assert_msg (question != NULL, "no question %s", of_dog[i]);
      ck_assert_int_eq (question->of, SW_ASKED_OF_DOG);
      ck_assert_int_eq (question->at == SW_ASKED_ON_TREATMENT_DAY, g_str_has_suffix (of_dog[i], "-today"));
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("question");
  TCase *tcase = tcase_create ("question");
  SRunner *runner;

  tcase_add_test (tcase, test_well_formed);
  tcase_add_test (tcase, test_headings_together);
  tcase_add_test (tcase, test_nothing_left_out);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
