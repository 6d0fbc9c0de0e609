/* test-contradictions.c: each way in which a document is malformed or contradicts itself, by name and place
 *
 * Every bad document is the good one of its kind with one edit, so that nothing else is wrong with it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-error.h"
#include "sw-interactions.h"
#include "sw-medicine.h"
#include "sw-protocol.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  const char *from, *to; /* the first `from` becomes `to`; "" appends */
  SwContradiction kind;
  const char *key;       /* what the refusal names */
} Edit;

#define KIND(name) SW_CONTRADICTION_##name

/* Attributes of one figure, to keep the tables readable. */
#define OURS "mark=\"ours\"/>"
#define PAPER "mark=\"memory\" source=\"paper\"/>"

static const Edit protocol_edits[] = {
  /* malformed */
  { "</protocol>", "", KIND (MALFORMED), NULL },
  { "<protocol ", "protocol ", KIND (MALFORMED), NULL },
  { "<dose>", "<dose", KIND (MALFORMED), NULL },
  { "</dose>", "</doze>", KIND (MALFORMED), NULL },
  { "value=\"Gloves.\"", "value=\"&gloves;\"", KIND (MALFORMED), NULL },
  { "value=\"Gloves.\"", "value=Gloves", KIND (MALFORMED), NULL },
  { "value=\"Gloves.\"", "value=\"\377\"", KIND (MALFORMED), NULL },
  { "<!-- An invented", "<!DOCTYPE protocol><!-- An invented", KIND (MALFORMED), NULL },
  { "</protocol>", "</protocol><protocol/>", KIND (MALFORMED), NULL },
  { "<cautions>", "<a><a><a><a><a><a><a><a><a><a><a><a><a><a><a><a>", KIND (MALFORMED), NULL },
  { "<cautions>", "<advice/><cautions>", KIND (UNKNOWN_ELEMENT), "advice" },
  { "<cautions>", "<cautions>Take care.", KIND (UNKNOWN_ELEMENT), "cautions" },
  { "species=\"dog\"", "species=\"dog\" colour=\"red\"", KIND (UNKNOWN_ELEMENT), "colour" },
  { "<figure name=\"vial\" ", "<figure name=\"vial\" unit=\"mL\" ", KIND (UNKNOWN_ELEMENT), "unit" },
  { " species=\"dog\"", "", KIND (MISSING_ATTRIBUTE), "species" },
  { " revision=\"3\"", "", KIND (MISSING_ATTRIBUTE), "revision" },
  { " title=\"An invented book\"", "", KIND (MISSING_ATTRIBUTE), "title" },
  { "name=\"vial\" value=\"2 mL\"", "name=\"vial\"", KIND (MISSING_ATTRIBUTE), "vial" },
  { "<figure name=\"strength\" value=\"1 mg/mL\" mark=\"seen\" source=\"book\"/>", "", KIND (MISSING_FIGURE), "strength" },
  { "no: meets; yes: rules-out", "yes: rules-out", KIND (MISSING_FIGURE), "resectable" },
  { "<figure name=\"gloves\" value=\"Gloves.\" mark=\"practice\"/>", "", KIND (MISSING_FIGURE), "handler" },
  { "id=\"test-good\"", "id=\"Test Good\"", KIND (BAD_VALUE), "id" },
  { "\"0.5 mL/cm3\"", "\"half mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"0.5 mL/cm3\"", "\"0,5 mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"0.5 mL/cm3\"", "\"-0.5 mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"0.5 mL/cm3\"", "\"0 mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"0.5 mL/cm3\"", "\"0.5e1 mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"0.5 mL/cm3\"", "\"0.1234567 mL/cm3\"", KIND (BAD_VALUE), "dose-per-volume" },
  { "\"8 cm3\"", "\"99999999999999 cm3\"", KIND (BAD_VALUE), "largest-tumour" },
  { "\"-2 to +4\"", "\"two days\"", KIND (BAD_VALUE), "shield/testmed/phase-1/days" },
  { "yes: rules-out", "yes: forbids", KIND (BAD_VALUE), "resectable" },
  { "\"14:00\"", "\"2 pm\"", KIND (BAD_VALUE), "first-until" },
  { "\"12 h\" mark=\"memory\"", "\"7 h\" mark=\"memory\"", KIND (BAD_VALUE), "shield/testmed/phase-1/every" },
  { "\"1; 4; 28\"", "\"1; ; 28\"", KIND (BAD_VALUE), "visit-days" },

  /* well-formed, but contradictory */
  { "<figure name=\"vial\" ", "<figure name=\"least-dose\" value=\"0.2 mL\" mark=\"ours\"/><figure name=\"vial\" ",
    KIND (DUPLICATE_FIGURE), "least-dose" },
  { "<source id=\"paper\"", "<source id=\"book\"", KIND (DUPLICATE_ID), "book" },
  { "<group id=\"other\"", "<group id=\"shield\"", KIND (DUPLICATE_FIGURE), "shield/testmed/phase-1/dose" },
  { "<group id=\"other\" title=\"other\">", "<group id=\"shield\" title=\"x\"><alternative substance=\"m\"/></group>"
    "<group id=\"other\" title=\"other\">", KIND (DUPLICATE_ID), "shield" },
  { "none: not-known; ", "none: not-known; none: meets; ", KIND (DUPLICATE_ID), "grade" },
  { "name=\"vial-use\"", "name=\"vial-usage\"", KIND (UNKNOWN_FIGURE), "vial-usage" },
  { "<gate>", "<gate><figure name=\"most-per-treatment-2\" value=\"9 mL\" mark=\"ours\"/>", KIND (UNKNOWN_FIGURE),
    "most-per-treatment-2" },
  { "value=\"1; 4; 28\" mark=\"practice\"", "value=\"1; 4; 28\"", KIND (MISSING_MARK), "visit-days" },
  { "value=\"2 mL\" mark=\"practice\"", "value=\"2 mL\" mark=\"sure\"", KIND (UNKNOWN_MARK), "vial" },
  { "value=\"1 mg/mL\" mark=\"seen\" source=\"book\"", "value=\"1 mg/mL\" mark=\"seen\"", KIND (MISSING_SOURCE), "strength" },
  { "value=\"1 mg/mL\" mark=\"seen\" source=\"book\"", "value=\"1 mg/mL\" mark=\"seen\" source=\"not-recorded\"",
    KIND (MISSING_SOURCE), "strength" },
  { "value=\"0.1 mL\" " PAPER, "value=\"0.1 mL\" mark=\"memory\"/>", KIND (MISSING_SOURCE), "least-dose" },
  { "value=\"0.1 mL\" " PAPER, "value=\"0.1 mL\" mark=\"memory\" source=\"hearsay\"/>", KIND (UNKNOWN_SOURCE), "least-dose" },
  { "value=\"2 mL\" mark=\"practice\"", "value=\"2 mL\" mark=\"practice\" source=\"book\"", KIND (UNWANTED_SOURCE), "vial" },
  { "value=\"28 d\" " OURS, "value=\"28 d\" mark=\"ours\" source=\"book\"/>", KIND (UNWANTED_SOURCE), "look-back" },
  { "\"0.5 mL/cm3\"", "\"0.5 mL\"", KIND (UNIT_MISMATCH), "dose-per-volume" },
  { "\"0.1 mL\"", "\"0.1 mg\"", KIND (UNIT_MISMATCH), "least-dose" },
  { "\"8 cm3\"", "\"8\"", KIND (UNIT_MISMATCH), "largest-tumour" },
  { "\"0.15 mL/kg\"", "\"0.15 mL/lb\"", KIND (UNIT_MISMATCH), "most-per-weight" },
  { "\"0.5 mg/kg\"", "\"0.5 mg\"", KIND (UNIT_MISMATCH), "shield/testmed/phase-1/dose" },
  { "\"60 min\"", "\"1 h\"", KIND (UNIT_MISMATCH), "least-before" },
  { "\"1 mg/mL\"", "\"1000 U/mL\"", KIND (BARE_UNIT), "strength" },
  { "\"0.5 mL/cm3\"", "\"500 IU/cm3\"", KIND (BARE_UNIT), "dose-per-volume" },
  { "\"0.1 mL\"", "\"100 U\"", KIND (BARE_UNIT), "least-dose" },
  { "\"0.1 mL\"", "\"5 mL\"", KIND (LEAST_OVER_MOST), "most-per-treatment" },
  { "\"12 h\" mark=\"ours\"/>\n    <figure name=\"first-until\"", "\"0 h\" mark=\"ours\"/>\n    <figure name=\"first-until\"",
    KIND (LEAST_OVER_MOST), "most-before" },
  { "\"4 mL\"", "\"3.999999 mL\"", KIND (DOSE_OVER_LIMIT), "most-per-treatment" },
  { "\"8 cm3\"", "\"8.000000001 cm3\"", KIND (DOSE_OVER_LIMIT), "most-per-treatment" },
  { "\"half-product\"", "\"thirds-product\"", KIND (UNKNOWN_RULE), "volume-rule" },
  { "\"constant\"", "\"by-eye\"", KIND (UNKNOWN_RULE), "dose-rule" },
  { "\"longest-diameter\"", "\"by-eye\"", KIND (UNKNOWN_RULE), "response-rule" },
  { "substance=\"testmed\"", "substance=\"othermed\"", KIND (UNKNOWN_MEDICINE), "othermed" },
  { "\"0.55 mg/kg\"", "\"0.601 mg/kg\"", KIND (OUT_OF_RANGE), "shield/testmed/phase-2/dose" },
  { "\"0.55 mg/kg\"", "\"0.449 mg/kg\"", KIND (OUT_OF_RANGE), "shield/testmed/phase-2/dose" },
  { "\"12 h\" mark=\"memory\"", "\"8 h\" mark=\"memory\"", KIND (INTERVAL_MISMATCH), "shield/testmed/phase-1/every" },
  { "\"-2 to +4\"", "\"-3 to +4\"", KIND (DAY_OUTSIDE_COURSE), "shield/testmed/phase-1/days" },
  { "\"+5 to +7\"", "\"+5 to +8\"", KIND (DAY_OUTSIDE_COURSE), "shield/testmed/phase-2/days" },
  { "\"25 to 35\"", "\"29 to 35\"", KIND (DAY_OUTSIDE_COURSE), "score-day" },
  { "\"-2 to +4\"", "\"+4 to -2\"", KIND (DAYS_REVERSED), "shield/testmed/phase-1/days" },
  { "\"-2 to +7\"", "\"+7 to -2\"", KIND (DAYS_REVERSED), "medicine-days" },
  { "\"25 to 35\"", "\"35 to 25\"", KIND (DAYS_REVERSED), "score-days" },
  { "\"1; 4; 28\"", "\"1; 28; 4\"", KIND (DAYS_REVERSED), "visit-days" },
  { "\"1; 4; 28\"", "\"1; 4; 4\"", KIND (DAYS_REVERSED), "visit-days" },
  { "\"+5 to +7\"", "\"+4 to +7\"", KIND (PHASES_OVERLAP), "shield/testmed/phase-2/days" },
  { "value=\"shield\" mark", "value=\"sword\" mark", KIND (ABSENT_GROUP), "lead-in-groups" },
  { "title=\"other\"", "title=\"other\" optional=\"yes\"", KIND (ABSENT_GROUP), "day-groups" },
  { "<group id=\"other\"", "<group id=\"empty\"/><group id=\"other\"", KIND (EMPTY_GROUP), "empty" },
  { "<group id=\"other\"", "<group id=\"e\"><alternative substance=\"testmed\"/></group><group id=\"other\"",
    KIND (EMPTY_GROUP), "testmed" },
  { "\"-2 to +4\"", "\"0 to +4\"", KIND (GATE_UNREACHABLE), "lead-in-groups" },
  { "\"0 to +6\"", "\"+1 to +6\"", KIND (GATE_UNREACHABLE), "day-groups" },
  { "elbow; hock", "elbow; knee", KIND (UNKNOWN_REGION), "subcutaneous-regions" },
  { "name=\"resectable\"", "name=\"removable\"", KIND (UNKNOWN_QUESTION), "removable" },
  { "patnaik-3: vet-decides", "patnaik-9: vet-decides", KIND (UNKNOWN_QUESTION), "grade" },
};

static const Edit tier_edits[] = {
  { "\"over\" value=\"0.5 cm3\"", "\"over\" value=\"0.4 cm3\"", KIND (TIERS_OVERLAP), "tier-2/dose" },
  { "\"over\" value=\"1 cm3\"", "\"from\" value=\"1 cm3\"", KIND (TIERS_OVERLAP), "tier-3/dose" },
  { "\"over\" value=\"0.5 cm3\"", "\"over\" value=\"0.500000001 cm3\"", KIND (TIER_GAP), "tier-2/dose" },
  { "\"over\" value=\"1 cm3\"", "\"over\" value=\"2 cm3\"", KIND (TIER_GAP), "tier-3/dose" },
  { "\"over\" value=\"0 cm3\"", "\"over\" value=\"0.1 cm3\"", KIND (TIER_GAP), "tier-1/dose" },
  { "\"over\" value=\"1 cm3\" mark=\"ours\"/>", "\"over\" value=\"1 cm3\" mark=\"ours\"/>"
    "<figure name=\"to\" value=\"7 cm3\" mark=\"ours\"/>", KIND (TIER_GAP), "tier-3/dose" },
  { "\"under\" value=\"0.5 cm3\"", "\"under\" value=\"0 cm3\"", KIND (LEAST_OVER_MOST), "tier-1/under" },
  { "\"0.25 mL/cm3\"", "\"0.51 mL/cm3\"", KIND (DOSE_OVER_LIMIT), "most-per-treatment" },
  { "\"1000 IU/mL\"", "\"1000 U/mL\"", KIND (BARE_UNIT), "strength" },
  { "\"1 mL/cm3\"", "\"1000 IU/cm3\"", KIND (BARE_UNIT), "tier-1/dose" },
  { "\"over\" value=\"0 cm3\"", "\"above\" value=\"0 cm3\"", KIND (MISSING_FIGURE), "tier" },
};

static const Edit medicine_edits[] = {
  { "<medicine ", "<protocol ", KIND (MALFORMED), NULL },
  { "\"0.45 mg/kg\"", "\"0.7 mg/kg\"", KIND (LEAST_OVER_MOST), "high" },
  { "\"12 to 24 h\"", "\"24 to 12 h\"", KIND (LEAST_OVER_MOST), "every" },
  { "\"12 to 24 h\"", "\"1 to 2 d\"", KIND (UNIT_MISMATCH), "every" },
  { "\"12 to 24 h\"", "\"0 h\"", KIND (BAD_VALUE), "every" },
  { "\"0.5 mg/kg\"", "\"0.61 mg/kg\"", KIND (OUT_OF_RANGE), "target" },
  { "\"0.5 mg/kg\"", "\"0.44 mg/kg\"", KIND (OUT_OF_RANGE), "target" },
  { "5; 1; 2.5 mg", "5; 1; 5 mg", KIND (DUPLICATE_ID), "tablets" },
  { "5; 1; 2.5 mg", "5; 1; 2.5", KIND (UNIT_MISMATCH), "tablets" },
  { "5; 1; 2.5 mg", "5; 1; 2.5 mg/mL", KIND (UNIT_MISMATCH), "tablets" },
  { "5; 1; 2.5 mg", "5; 0; 2.5 mg", KIND (BAD_VALUE), "tablets" },
  { "name=\"tablets\"", "name=\"capsules\"", KIND (FORM_MISMATCH), "divide" },
  { "\"halves\"", "\"quarters\"", KIND (BAD_VALUE), "divide" },
  { "name=\"low\" value=\"0.45 mg/kg\" mark=\"ours\"", "name=\"at-least\" value=\"0.5 mg/kg\" mark=\"ours\"",
    KIND (DUPLICATE_FIGURE), "target" },
  { "\"5 d\"", "\"5 weeks\"", KIND (UNIT_MISMATCH), "washout" },
};

static const Edit interactions_edits[] = {
  { "class:nsaid", "class:nonsense", KIND (UNKNOWN_CLASS), "nonsense" },
  { "substance:testmed", "substance:othermed", KIND (UNKNOWN_CLASS), "othermed" },
  { "fact:diabetes/yes", "fact:diabetes/maybe", KIND (UNKNOWN_QUESTION), "diabetes/maybe" },
  { "fact:diabetes/yes", "diabetes", KIND (BAD_VALUE), "b" },
  { "id=\"washout\"", "id=\"shield-with-nsaid\"", KIND (DUPLICATE_FIGURE), "shield-with-nsaid/level" },
  { "when=\"washout\"", "when=\"later\"", KIND (UNKNOWN_RULE), "when" },
  { " when=\"washout\"", "", KIND (MISSING_ATTRIBUTE), "when" },
  { "<figure name=\"days\" value=\"7 d\" mark=\"ours\"/>", "", KIND (MISSING_FIGURE), "days" },
  { "\"7 d\"", "\"7 h\"", KIND (UNIT_MISMATCH), "washout/days" },
  { "\"stop\"", "\"forbid\"", KIND (BAD_VALUE), "shield-with-nsaid/level" },
};

static char *
read_fixture (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "documents", name, NULL);
  char *text = NULL;

  ck_assert_msg (g_file_get_contents (path, &text, NULL, NULL), "%s", path);
  return text;
}

static GPtrArray *medicines;

static void
setup (void)
{
  g_autofree char *text = read_fixture ("good-medicine.xml");
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));

  medicines = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_medicine_free);
  g_ptr_array_add (medicines, sw_medicine_parse ("good-medicine.xml", bytes, NULL));
  ck_assert_ptr_nonnull (g_ptr_array_index (medicines, 0));
}

static void
teardown (void)
{
  g_clear_pointer (&medicines, g_ptr_array_unref);
}

/* Parses and frees; whether it was taken. */
typedef gboolean (*TakeFunc) (const char *name, GBytes *bytes, GError **error);

static gboolean
take_protocol (const char *name, GBytes *bytes, GError **error)
{
  g_autoptr (SwProtocol) protocol = sw_protocol_parse (name, bytes, medicines, error);

  return protocol != NULL;
}

static gboolean
take_medicine (const char *name, GBytes *bytes, GError **error)
{
  g_autoptr (SwMedicine) medicine = sw_medicine_parse (name, bytes, error);

  return medicine != NULL;
}

static gboolean
take_interactions (const char *name, GBytes *bytes, GError **error)
{
  g_autoptr (SwInteractions) interactions = sw_interactions_parse (name, bytes, medicines, error);

  return interactions != NULL;
}

/* The line of the edit, counted here and not by the reader. */
static int
line_of (const char *text, const char *place)
{
  int line = 1;

  for (const char *p = text; p < place; p++)
    line += *p == '\n';
  return line;
}

static void
assert_refusal (const Edit *edit, const GError *error)
{
  g_auto (GStrv) parts = NULL;

  ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_DOCUMENT), "%s", error->message);
  ck_assert_msg (sw_contradiction_of_error (error) == (int) edit->kind, "“%s”: wanted %s, got: %s", edit->to,
                 sw_contradiction_code (edit->kind), error->message);
  parts = g_strsplit (error->message, ": ", 3);
  if (edit->key != NULL)
    ck_assert_msg (g_strv_length (parts) == 3 && g_str_equal (parts[1], edit->key), "wanted key %s: %s", edit->key,
                   error->message);
  ck_assert_msg (strstr (error->message, ". [") != NULL, "no sentence: %s", error->message);
  ck_assert (g_utf8_validate (error->message, -1, NULL));
}

static void
assert_edit_refused (const char *good_name, const Edit *edit, TakeFunc take)
{
  g_autofree char *good = read_fixture (good_name);
  const char *place = strstr (good, edit->from);
  g_autoptr (GString) bad = g_string_new_len (good, place - good);
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  ck_assert_msg (place != NULL, "the good document has no %s", edit->from);
  g_string_append (bad, edit->to);
  g_string_append (bad, place + strlen (edit->from));
  bytes = g_bytes_new (bad->str, bad->len);
  ck_assert_msg (!take ("bad.xml", bytes, &error), "“%s” was taken", edit->to);
  assert_refusal (edit, error);
  ck_assert (!take ("bad.xml", bytes, NULL));
  ck_assert_msg (g_str_has_prefix (error->message, "bad.xml:"), "%s", error->message);
}

START_TEST (test_protocol)
{
  assert_edit_refused ("good-protocol.xml", &protocol_edits[_i], take_protocol);
}
END_TEST

START_TEST (test_tier)
{
  assert_edit_refused ("half-product-tiers.xml", &tier_edits[_i], take_protocol);
}
END_TEST

START_TEST (test_medicine)
{
  assert_edit_refused ("good-medicine.xml", &medicine_edits[_i], take_medicine);
}
END_TEST

START_TEST (test_interactions)
{
  assert_edit_refused ("good-interactions.xml", &interactions_edits[_i], take_interactions);
}
END_TEST

/* Without an edit each document is taken: the refusals above are about the edits. */
START_TEST (test_good_ones_are_taken)
{
  static const struct
  {
    const char *name;
    TakeFunc take;
  } documents[] = { { "good-protocol.xml", take_protocol },
                    { "half-product-tiers.xml", take_protocol },
                    { "good-medicine.xml", take_medicine },
                    { "good-interactions.xml", take_interactions } };

  for (guint i = 0; i < G_N_ELEMENTS (documents); i++)
    {
      g_autofree char *text = read_fixture (documents[i].name);
      g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
      g_autoptr (GError) error = NULL;

      ck_assert_msg (documents[i].take (documents[i].name, bytes, &error), "%s", error ? error->message : "");
    }
}
END_TEST

static void
count_kinds (const Edit *edits, guint n, gboolean seen[SW_N_CONTRADICTIONS], guint *contradictory)
{
  for (guint i = 0; i < n; i++)
    {
      seen[edits[i].kind] = TRUE;
      *contradictory += edits[i].kind > SW_CONTRADICTION_BAD_VALUE;
    }
}

/* Every kind has a document, and most are well-formed but contradictory. */
START_TEST (test_every_kind_is_tried)
{
  gboolean seen[SW_N_CONTRADICTIONS] = { FALSE };
  guint contradictory = 0;

  count_kinds (protocol_edits, G_N_ELEMENTS (protocol_edits), seen, &contradictory);
  count_kinds (tier_edits, G_N_ELEMENTS (tier_edits), seen, &contradictory);
  count_kinds (medicine_edits, G_N_ELEMENTS (medicine_edits), seen, &contradictory);
  count_kinds (interactions_edits, G_N_ELEMENTS (interactions_edits), seen, &contradictory);
  for (int kind = 0; kind < SW_N_CONTRADICTIONS; kind++)
    ck_assert_msg (seen[kind], "no document is refused as %s", sw_contradiction_code (kind));
  ck_assert_uint_ge (contradictory, 30);
}
END_TEST

/* Line and column of the element, whatever stands before it on its line. */
START_TEST (test_place)
{
  static const char text[] = "<?xml version=\"1.0\"?>\n"
                             "<medicine id=\"m\" revision=\"1\"\n"
                             "          title=\"Größe\">\n"
                             "  <handling><figure name=\"classes\" value=\"ä\" mark=\"ours\"/><figure\n"
                             "    name=\"wash\" value=\"\" mark=\"ours\"/></handling>\n"
                             "</medicine>\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, strlen (text));
  g_autoptr (GError) error = NULL;

  ck_assert (!take_medicine ("m.xml", bytes, &error));
  ck_assert_msg (g_str_has_prefix (error->message, "m.xml:4:59: wash: "), "%s", error->message);
}
END_TEST

START_TEST (test_place_of_an_edit)
{
  g_autofree char *good = read_fixture ("good-protocol.xml");
  char *place = strstr (good, "\"0.5 mL/cm3\"");
  g_autofree char *expected = g_strdup_printf ("bad.xml:%d:5: dose-per-volume: ", line_of (good, place));
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  memcpy (place, "\"0.5 mL/cmm\"", strlen ("\"0.5 mL/cm3\""));
  bytes = g_bytes_new (good, strlen (good));
  ck_assert (!take_protocol ("bad.xml", bytes, &error));
  ck_assert_msg (g_str_has_prefix (error->message, expected), "%s", error->message);
}
END_TEST

START_TEST (test_large_and_empty)
{
  g_autofree char *large = g_strnfill (1024 * 1024 + 1, ' ');
  g_autoptr (GBytes) bytes = g_bytes_new (large, 1024 * 1024 + 1), empty = g_bytes_new_static ("", 0);
  g_autoptr (GError) error = NULL, other = NULL;

  ck_assert (!take_protocol ("large.xml", bytes, &error));
  ck_assert_int_eq (sw_contradiction_of_error (error), SW_CONTRADICTION_MALFORMED);
  ck_assert (!take_protocol ("empty.xml", empty, &other));
  ck_assert_int_eq (sw_contradiction_of_error (other), SW_CONTRADICTION_MALFORMED);
}
END_TEST

/* A file cut at any byte is refused and nothing else happens. */
START_TEST (test_cut_anywhere)
{
  g_autofree char *good = read_fixture ("good-protocol.xml");
  gsize length = strlen (good);

  while (length > 0 && good[length - 1] != '>')
    length--;
  for (gsize cut = 0; cut < length; cut++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new (good, cut);
      g_autoptr (GError) error = NULL;

      ck_assert_msg (!take_protocol ("cut.xml", bytes, &error), "cut at %" G_GSIZE_FORMAT, cut);
      ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_DOCUMENT));
    }
}
END_TEST

/* Bytes changed at random: taken or refused with a sentence in UTF-8, never a crash. */
START_TEST (test_changed_bytes)
{
  const int runs = g_getenv ("SW_TEST_LONG") != NULL ? 200000 : 3000;
  const char *given = g_getenv ("SW_TEST_SEED");
  guint32 seed = given != NULL ? (guint32) g_ascii_strtoull (given, NULL, 10) : 20261125u;
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autofree char *good = read_fixture ("good-protocol.xml");
  gsize length = strlen (good);

  for (int i = 0; i < runs; i++)
    {
      g_autofree char *bad = g_strdup (good);
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GError) error = NULL;

      for (int change = g_rand_int_range (rand, 1, 4); change > 0; change--)
        bad[g_rand_int_range (rand, 0, (gint32) length)] = (char) g_rand_int_range (rand, 0, 256);
      bytes = g_bytes_new (bad, length);
      if (take_protocol ("changed.xml", bytes, &error))
        continue;
      ck_assert_msg (g_error_matches (error, SW_ERROR, SW_ERROR_DOCUMENT), "seed %u, run %d", seed, i);
      ck_assert_msg (sw_contradiction_of_error (error) >= 0, "seed %u, run %d: %s", seed, i, error->message);
      ck_assert_msg (g_utf8_validate (error->message, -1, NULL), "seed %u, run %d", seed, i);
    }
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("contradictions");
  TCase *edits = tcase_create ("edits"), *bytes = tcase_create ("bytes");
  SRunner *runner;

  tcase_add_checked_fixture (edits, setup, teardown);
  tcase_add_checked_fixture (bytes, setup, teardown);
  tcase_set_timeout (bytes, 300);
  tcase_add_test (edits, test_good_ones_are_taken);
  tcase_add_test (edits, test_every_kind_is_tried);
  tcase_add_loop_test (edits, test_protocol, 0, G_N_ELEMENTS (protocol_edits));
  tcase_add_loop_test (edits, test_tier, 0, G_N_ELEMENTS (tier_edits));
  tcase_add_loop_test (edits, test_medicine, 0, G_N_ELEMENTS (medicine_edits));
  tcase_add_loop_test (edits, test_interactions, 0, G_N_ELEMENTS (interactions_edits));
  tcase_add_test (edits, test_place);
  tcase_add_test (edits, test_place_of_an_edit);
  tcase_add_test (bytes, test_large_and_empty);
  tcase_add_test (bytes, test_cut_anywhere);
  tcase_add_test (bytes, test_changed_bytes);
  suite_add_tcase (suite, edits);
  suite_add_tcase (suite, bytes);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
