/* test-documents.c: what good documents mean, and that the shipped ones say what the domain says
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-books.h"
#include "sw-error.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static GBytes *
read_fixture (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "tests", "documents", name, NULL);
  char *text = NULL;
  gsize size = 0;

  ck_assert_msg (g_file_get_contents (path, &text, &size, NULL), "%s", path);
  return g_bytes_new_take (text, size);
}

static GPtrArray *
read_medicines (void)
{
  GPtrArray *medicines = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_medicine_free);
  g_autoptr (GBytes) bytes = read_fixture ("good-medicine.xml");
  g_autoptr (GError) error = NULL;
  SwMedicine *medicine = sw_medicine_parse ("good-medicine.xml", bytes, &error);

  ck_assert_msg (medicine != NULL, "%s", error ? error->message : "");
  g_ptr_array_add (medicines, medicine);
  return medicines;
}

START_TEST (test_medicine)
{
  g_autoptr (GPtrArray) medicines = read_medicines ();
  const SwMedicine *medicine = sw_medicines_find (medicines, "testmed");
  const SwStrength *first = g_ptr_array_index (medicine->strengths, 0),
                   *last = g_ptr_array_index (medicine->strengths, 3);

  ck_assert_ptr_null (sw_medicines_find (medicines, "absent"));
  ck_assert_int_eq (medicine->target_ug_per_kg, 500);
  ck_assert_int_eq (medicine->low_ug_per_kg, 450);
  ck_assert_int_eq (medicine->high_ug_per_kg, 600);
  ck_assert_int_eq (medicine->first_ug_per_kg, SW_UNKNOWN);
  ck_assert (!medicine->at_least && medicine->single_substance && !medicine->controlled);
  ck_assert_int_eq (medicine->least_hours, 12);
  ck_assert_int_eq (medicine->most_hours, 24);
  ck_assert_int_eq (medicine->washout_days, 5);
  ck_assert_int_eq (medicine->divide, SW_DIVIDE_HALVES);
  ck_assert_uint_eq (medicine->strengths->len, 4);
  ck_assert (first->ug == 1000 && first->form == SW_FORM_TABLET);
  ck_assert (last->ug == 5000 && last->form == SW_FORM_TABLET);
  ck_assert (sw_medicine_has_class (medicine, "nsaid") && !sw_medicine_has_class (medicine, "h1"));
  ck_assert_uint_eq (medicine->cautions->len, 1);
}
END_TEST

static SwProtocol *
read_protocol (const char *name, const GPtrArray *medicines)
{
  g_autoptr (GBytes) bytes = read_fixture (name);
  g_autoptr (GError) error = NULL;
  SwProtocol *protocol = sw_protocol_parse (name, bytes, medicines, &error);

  ck_assert_msg (protocol != NULL, "%s", error ? error->message : "");
  return protocol;
}

START_TEST (test_protocol_dose)
{
  g_autoptr (GPtrArray) medicines = read_medicines ();
  g_autoptr (SwProtocol) protocol = read_protocol ("good-protocol.xml", medicines);
  const SwTier *tier = g_ptr_array_index (protocol->tiers, 0);

  ck_assert_str_eq (protocol->head.id, "test-good");
  ck_assert_str_eq (protocol->head.revision, "3");
  ck_assert_str_eq (protocol->species, "dog");
  ck_assert_int_eq (protocol->strength, 1000);
  ck_assert_str_eq (protocol->strength_unit, "mg");
  ck_assert_int_eq (protocol->volume_rule, SW_VOLUME_HALF_PRODUCT);
  ck_assert_uint_eq (protocol->tiers->len, 1);
  ck_assert (tier->from == 0 && tier->to == SW_UNKNOWN && tier->nl_per_cm3 == 500000);
  ck_assert_int_eq (protocol->least_dose_nl, 100000);
  ck_assert_int_eq (protocol->largest_tumour, G_GINT64_CONSTANT (8000000000));
  ck_assert_int_eq (protocol->most_nl_per_kg, 150000);
  ck_assert_int_eq (protocol->most_nl_per_treatment, 4000000);
  ck_assert_int_eq (protocol->vial_nl, 2000000);
  ck_assert (protocol->vial_single_use);
  ck_assert_int_eq (protocol->look_back_days, 28);
  ck_assert_ptr_eq (tier->figure, sw_protocol_figure (protocol, "dose-per-volume"));
  ck_assert_int_eq (tier->figure->line, 12);
  ck_assert_int_eq (tier->figure->column, 5);
  ck_assert_int_eq (tier->figure->mark, SW_FIGURE_SEEN);
  ck_assert_str_eq (sw_document_source_title (&protocol->head, tier->figure), "An invented book");
}
END_TEST

START_TEST (test_protocol_selection)
{
  g_autoptr (GPtrArray) medicines = read_medicines ();
  g_autoptr (SwProtocol) protocol = read_protocol ("good-protocol.xml", medicines);

  ck_assert (protocol->regions[SW_DEPTH_CUTANEOUS][SW_REGION_HEAD]);
  ck_assert (protocol->regions[SW_DEPTH_SUBCUTANEOUS][SW_REGION_HOCK]);
  ck_assert (!protocol->regions[SW_DEPTH_SUBCUTANEOUS][SW_REGION_HEAD]);
  ck_assert (!protocol->regions[SW_DEPTH_OTHER][SW_REGION_HEAD]);
  ck_assert_int_eq (protocol->least_age_months, 12);
  ck_assert_int_eq (protocol->stage_days, SW_UNKNOWN);
  ck_assert_int_eq (protocol->growth_permille, 250);
  ck_assert_int_eq (sw_protocol_ruling (protocol, "resectable", "yes")->severity, SW_STOP);
  ck_assert_int_eq (sw_protocol_ruling (protocol, "grade", "none")->severity, SW_NOT_KNOWN);
  ck_assert_int_eq (sw_protocol_ruling (protocol, "grade", "patnaik-3")->severity, SW_VET_DECIDES);
  ck_assert_int_eq (sw_protocol_ruling (protocol, "grade", "kiupel-high")->severity, SW_MEETS);
  ck_assert_ptr_null (sw_protocol_ruling (protocol, "surface", "crust"));
}
END_TEST

START_TEST (test_protocol_course)
{
  g_autoptr (GPtrArray) medicines = read_medicines ();
  g_autoptr (SwProtocol) protocol = read_protocol ("good-protocol.xml", medicines);
  const SwMedicineGroup *group = sw_protocol_group (protocol, "shield");
  const SwAlternative *alternative = sw_group_alternative (group, "testmed");
  const SwPhase *second = g_ptr_array_index (alternative->phases, 1);

  ck_assert (!group->optional);
  ck_assert (second->ug_per_kg == 550 && second->every_hours == 24 && second->first_day == 5 && second->last_day == 7);
  ck_assert_ptr_eq (second->dose, sw_protocol_figure (protocol, "shield/testmed/phase-2/dose"));
  ck_assert_str_eq (protocol->gate.lead_in_groups[0], "shield");
  ck_assert_str_eq (protocol->gate.day_groups[0], "other");
  ck_assert (protocol->gate.least_minutes == 60 && protocol->gate.most_minutes == 720 &&
             protocol->gate.first_until == 840);
  ck_assert_uint_eq (protocol->visit_days->len, 3);
  ck_assert_int_eq (g_array_index (protocol->visit_days, int, 2), 28);
  ck_assert (protocol->score_day == 28 && protocol->score_first_day == 25 && protocol->score_last_day == 35);
  ck_assert (protocol->retreat_day == 30 && protocol->retreat_after_score_days == 2);
  ck_assert_uint_eq (protocol->handler_rules->len, 1);
}
END_TEST

/* A document kept in a record is not checked again against today's medicines. */
START_TEST (test_protocol_without_medicines)
{
  g_autoptr (SwProtocol) protocol = read_protocol ("good-protocol.xml", NULL);

  ck_assert_uint_eq (protocol->groups->len, 2);
}
END_TEST

START_TEST (test_tiers)
{
  g_autoptr (SwProtocol) protocol = read_protocol ("half-product-tiers.xml", NULL);
  const SwTier *middle = g_ptr_array_index (protocol->tiers, 1);

  ck_assert_int_eq (protocol->dose_rule, SW_DOSE_TIERS);
  ck_assert_str_eq (protocol->strength_unit, "IU");
  ck_assert_int_eq (protocol->strength, 1000000);
  ck_assert_uint_eq (protocol->tiers->len, 3);
  ck_assert (middle->from == 500000000 && !middle->from_included && middle->to == 1000000000 && middle->to_included);
  ck_assert_ptr_eq (middle->figure, sw_protocol_figure (protocol, "tier-2/dose"));
}
END_TEST

START_TEST (test_interactions)
{
  g_autoptr (GPtrArray) medicines = read_medicines ();
  g_autoptr (GBytes) bytes = read_fixture ("good-interactions.xml");
  g_autoptr (GError) error = NULL;
  g_autoptr (SwInteractions) interactions = sw_interactions_parse ("good-interactions.xml", bytes, medicines, &error);
  const SwInteraction *row;

  ck_assert_msg (interactions != NULL, "%s", error ? error->message : "");
  row = sw_interactions_row (interactions, "washout");
  ck_assert_int_eq (row->when, SW_WHEN_WASHOUT);
  ck_assert (row->a_is == SW_PARTY_CLASS && row->b_is == SW_PARTY_SUBSTANCE);
  ck_assert_str_eq (row->b, "testmed");
  ck_assert_int_eq (row->days, 7);
  ck_assert_int_eq (row->level, SW_VET_DECIDES);
  row = sw_interactions_row (interactions, "diabetic");
  ck_assert (row->b_is == SW_PARTY_FACT && row->days == SW_UNKNOWN && row->level == SW_NOTE);
  ck_assert_ptr_null (sw_interactions_row (interactions, "absent"));
}
END_TEST

/* The digest was computed by sha256sum of GNU coreutils. */
START_TEST (test_digest_is_of_the_bytes)
{
  static const char text[] = "<medicine id=\"m\" revision=\"1\" title=\"M\"><handling>"
                             "<figure name=\"classes\" value=\"c\" mark=\"ours\"/></handling></medicine>";
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, strlen (text));
  g_autoptr (SwMedicine) medicine = sw_medicine_parse ("m.xml", bytes, NULL);

  ck_assert_ptr_nonnull (medicine);
  ck_assert_str_eq (medicine->head.digest, "8e3a6ae3a26b72b2c15eefa4622ccf426ddac980479f33311053b66c1f282065");
  ck_assert_ptr_eq (medicine->head.bytes, bytes);
}
END_TEST

static SwBooks *
shipped (void)
{
  g_autofree char *dir = g_build_filename (g_getenv ("SW_SOURCE_DIR"), "data", NULL);
  g_autoptr (GError) error = NULL;
  SwBooks *books = sw_books_new_shipped (dir, &error);

  ck_assert_msg (books != NULL, "%s", error ? error->message : "");
  return books;
}

/* Domain 3.1: EU product information and 21 CFR 522.2450 (strength, dose) [seen]; limits as marked in the documents. */
START_TEST (test_shipped_tigilanol)
{
  g_autoptr (SwBooks) books = shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu"),
                   *us = sw_books_protocol_named (books, "tigilanol-us");

  ck_assert (sw_document_adoptable (&eu->head) && sw_document_adoptable (&us->head));
  ck_assert (((SwTier *) eu->tiers->pdata[0])->nl_per_cm3 == 500000 &&
             ((SwTier *) us->tiers->pdata[0])->nl_per_cm3 == 500000);
  ck_assert (eu->strength == 1000 && us->strength == 1000);
  ck_assert (eu->least_dose_nl == 100000 && us->least_dose_nl == 100000);
  ck_assert (eu->most_nl_per_treatment == 4000000 && us->most_nl_per_treatment == 5000000);
  ck_assert (eu->most_nl_per_kg == 150000 && us->most_nl_per_kg == 250000);
  ck_assert_int_eq (eu->largest_tumour, G_GINT64_CONSTANT (8000000000));
  ck_assert_int_eq (us->largest_tumour, G_GINT64_CONSTANT (10000000000));
  ck_assert_int_eq (sw_protocol_ruling (eu, "resectable", "yes")->severity, SW_STOP);
  ck_assert_int_eq (sw_protocol_ruling (us, "resectable", "yes")->severity, SW_MEETS);
  ck_assert (eu->regions[SW_DEPTH_SUBCUTANEOUS][SW_REGION_HOCK] && !eu->regions[SW_DEPTH_SUBCUTANEOUS][SW_REGION_BACK]);
  ck_assert_int_eq (sw_protocol_figure (eu, "largest-tumour")->mark, SW_FIGURE_SEEN);
  ck_assert_int_eq (sw_protocol_figure (us, "most-per-weight")->mark, SW_FIGURE_MEMORY);
}
END_TEST

static guint
count_doses (const SwAlternative *alternative)
{
  guint count = 0;

  for (guint i = 0; i < alternative->phases->len; i++)
    {
      const SwPhase *phase = g_ptr_array_index (alternative->phases, i);

      count += (guint) (phase->last_day - phase->first_day + 1) * (guint) (24 / phase->every_hours);
    }
  return count;
}

/* Counts of domain 3.1 (check-values/medicines.csv, last lines): corticosteroid 14 + 3 = 17, H1 16, H2 16. */
START_TEST (test_shipped_counts)
{
  g_autoptr (SwBooks) books = shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");

  ck_assert_uint_eq (count_doses (sw_group_alternative (sw_protocol_group (eu, "corticosteroid"), "prednisolone")), 17);
  ck_assert_uint_eq (count_doses (sw_group_alternative (sw_protocol_group (eu, "h1"), "diphenhydramine")), 16);
  ck_assert_uint_eq (count_doses (sw_group_alternative (sw_protocol_group (eu, "h2"), "famotidine")), 16);
  ck_assert (sw_protocol_group (eu, "pain")->optional);
}
END_TEST

/* Domain 3.3: recalled figures are there to be looked at, the ceiling per visit and the rules for people are to be
 * filled in. */
START_TEST (test_shipped_unverified)
{
  static const char *const ids[] = { "ect-bleomycin-dog", "ect-cisplatin-dog" };
  g_autoptr (SwBooks) books = shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      const SwProtocol *protocol = sw_books_protocol_named (books, ids[i]);
      g_autoptr (GPtrArray) missing = sw_document_figures_to_fill (&protocol->head);
      const SwTier *first = g_ptr_array_index (protocol->tiers, 0);

      ck_assert (!sw_document_adoptable (&protocol->head));
      ck_assert (g_ptr_array_find (missing, sw_protocol_figure (protocol, "most-per-treatment"), NULL));
      ck_assert (g_ptr_array_find (missing, g_ptr_array_index (protocol->handler_rules, 0), NULL));
      ck_assert_int_eq (protocol->most_nl_per_treatment, SW_UNKNOWN);
      ck_assert_int_eq (protocol->volume_rule, SW_VOLUME_SIXTH_PI_A_B2);
      ck_assert (first->to == 500000000 && !first->to_included && first->nl_per_cm3 == 1000000);
    }
}
END_TEST

START_TEST (test_ticks)
{
  g_autoptr (SwBooks) books = shipped ();
  const SwProtocol *eu = sw_books_protocol_named (books, "tigilanol-eu");
  g_autoptr (GPtrArray) ticks = sw_document_figures_to_tick (&eu->head);

  ck_assert (g_ptr_array_find (ticks, sw_protocol_figure (eu, "least-dose"), NULL));
  ck_assert (g_ptr_array_find (ticks, sw_protocol_figure (eu, "look-back"), NULL));
  ck_assert (!g_ptr_array_find (ticks, sw_protocol_figure (eu, "dose-per-volume"), NULL));
  ck_assert_uint_lt (ticks->len, eu->head.figures->len);
}
END_TEST

/* Domain 3.2: each substance of the table, and the washouts. */
START_TEST (test_shipped_medicines)
{
  static const char *const substances[] =
      { "prednisolone", "prednisone", "diphenhydramine", "chlorphenamine", "cetirizine", "famotidine", "omeprazole",
          "maropitant",   "gabapentin", "tramadol",        "meloxicam",      "carprofen",  "aspirin",    "mavacoxib" };
  g_autoptr (SwBooks) books = shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (substances); i++)
    {
      const SwMedicine *medicine = sw_books_medicine (books, substances[i]);

      ck_assert_msg (medicine != NULL, "%s", substances[i]);
      ck_assert (sw_document_adoptable (&medicine->head));
    }
  ck_assert (sw_books_medicine (books, "maropitant")->at_least);
  ck_assert_int_eq (sw_books_medicine (books, "maropitant")->target_ug_per_kg, 2000);
  ck_assert_int_eq (sw_books_medicine (books, "meloxicam")->first_ug_per_kg, 200);
  ck_assert_int_eq (sw_books_medicine (books, "meloxicam")->washout_days, 5);
  ck_assert_int_eq (sw_books_medicine (books, "carprofen")->washout_days, 7);
  ck_assert_int_eq (sw_books_medicine (books, "aspirin")->washout_days, 10);
  ck_assert_int_eq (sw_books_medicine (books, "aspirin")->target_ug_per_kg, SW_UNKNOWN);
  ck_assert_int_eq (sw_books_medicine (books, "mavacoxib")->washout_days, 30);
  ck_assert_int_eq (sw_books_medicine (books, "tramadol")->target_ug_per_kg, SW_UNKNOWN);
  ck_assert_int_eq (sw_books_medicine (books, "omeprazole")->divide, SW_DIVIDE_WHOLE);
}
END_TEST

START_TEST (test_shipped_classes)
{
  g_autoptr (SwBooks) books = shipped ();

  ck_assert (sw_books_is_class (books, "carprofen", "nsaid"));
  ck_assert (sw_books_is_class (books, "aspirin", "nsaid"));
  ck_assert (sw_books_is_class (books, "firocoxib", "nsaid"));
  ck_assert (sw_books_is_class (books, "unknown-nsaid", "nsaid"));
  ck_assert (sw_books_is_class (books, "fluoxetine", "ssri"));
  ck_assert (!sw_books_is_class (books, "prednisolone", "nsaid"));
  ck_assert (!sw_books_is_class (books, "water", "nsaid"));
}
END_TEST

/* Domain 3.2, "What must be raised": each row of that table. */
START_TEST (test_shipped_interactions)
{
  static const struct
  {
    const char *id;
    SwSeverity level;
    gint64 days;
  } rows[] = {
    { "corticosteroid-with-nsaid", SW_STOP, SW_UNKNOWN },
    { "nsaid-washout", SW_STOP, 7 },
    { "two-nsaids", SW_STOP, SW_UNKNOWN },
    { "corticosteroid-taken", SW_VET_DECIDES, 60 },
    { "antihistamine-taken", SW_VET_DECIDES, 60 },
    { "acid-blocker-taken", SW_VET_DECIDES, 60 },
    { "corticosteroid-double", SW_STOP, SW_UNKNOWN },
    { "tramadol-with-ssri", SW_STOP, SW_UNKNOWN },
    { "tramadol-with-mao-inhibitor", SW_STOP, SW_UNKNOWN },
    { "corticosteroid-with-live-vaccine-given", SW_STOP, 28 },
    { "corticosteroid-with-live-vaccine-planned", SW_STOP, 28 },
    { "corticosteroid-with-diabetes", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-hyperadrenocorticism", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-gastric-ulcer", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-corneal-ulcer", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-infection", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-heart-disease", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-kidney-disease", SW_VET_DECIDES, SW_UNKNOWN },
    { "corticosteroid-with-liver-disease", SW_VET_DECIDES, SW_UNKNOWN },
    { "takes-kinase-inhibitor", SW_VET_DECIDES, SW_UNKNOWN },
    { "takes-anticoagulant", SW_VET_DECIDES, SW_UNKNOWN },
    { "takes-immunosuppressant", SW_VET_DECIDES, SW_UNKNOWN },
    { "takes-chemotherapy", SW_VET_DECIDES, SW_UNKNOWN },
    { "xylitol", SW_STOP, SW_UNKNOWN },
    { "mixed-antihistamine", SW_STOP, SW_UNKNOWN },
    { "histamine-releasing-opioid", SW_NOTE, SW_UNKNOWN },
  };
  g_autoptr (SwBooks) books = shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const SwInteraction *row = sw_interactions_row (sw_books_interactions (books), rows[i].id);

      ck_assert_msg (row != NULL, "%s", rows[i].id);
      ck_assert_msg (row->level == rows[i].level && row->days == rows[i].days, "%s", rows[i].id);
      ck_assert_msg (g_str_has_suffix (row->reason, "."), "%s", rows[i].id);
    }
}
END_TEST

static void
add_document (SwPractice *practice, gint64 id, SwDocumentKind kind, const SwDocumentHead *head)
{
  SwDocument *row = sw_fact_new (SW_FACT_DOCUMENT);

  row->fact.id = id;
  row->doc_kind = kind;
  row->doc_id = g_strdup (head->id);
  row->revision = g_strdup (head->revision);
  row->digest = g_strdup (head->digest);
  row->bytes = g_bytes_ref (head->bytes);
  sw_facts_add (&practice->facts, row);
}

/* Two revisions in a record: a course finds the one it was made with; by name the newest until one is adopted. */
START_TEST (test_books_of_a_record)
{
  g_autoptr (SwBooks) source = shipped (), books = NULL;
  g_autoptr (SwPractice) practice = sw_practice_new ();
  g_autoptr (GError) error = NULL;
  const SwDocumentHead *eu = &sw_books_protocol_named (source, "tigilanol-eu")->head;
  SwAdoption *adoption;

  add_document (practice, 5, SW_DOCUMENT_PROTOCOL, eu);
  add_document (practice, 6, SW_DOCUMENT_MEDICINE, &sw_books_medicine (source, "prednisolone")->head);
  add_document (practice, 9, SW_DOCUMENT_PROTOCOL, eu);
  books = sw_books_new (practice, &error);
  ck_assert_msg (books != NULL, "%s", error ? error->message : "");
  ck_assert_ptr_nonnull (sw_books_protocol (books, 5));
  ck_assert_ptr_ne (sw_books_protocol (books, 5), sw_books_protocol (books, 9));
  ck_assert_ptr_null (sw_books_protocol (books, 6));
  ck_assert_ptr_eq (sw_books_protocol_named (books, "tigilanol-eu"), sw_books_protocol (books, 9));
  ck_assert_ptr_null (sw_books_protocol_named (books, "absent"));
  ck_assert_ptr_null (sw_books_interactions (books));

  adoption = sw_fact_new (SW_FACT_ADOPTION);
  adoption->fact.id = 12;
  adoption->document = 5;
  adoption->doc_kind = SW_DOCUMENT_PROTOCOL;
  adoption->doc_id = g_strdup ("tigilanol-eu");
  sw_facts_add (&practice->facts, adoption);
  g_clear_pointer (&books, sw_books_unref);
  books = sw_books_new (practice, NULL);
  ck_assert_ptr_eq (sw_books_protocol_named (books, "tigilanol-eu"), sw_books_protocol (books, 5));
}
END_TEST

START_TEST (test_books_refuse_a_damaged_row)
{
  g_autoptr (SwBooks) source = shipped (), books = NULL;
  g_autoptr (SwPractice) practice = sw_practice_new ();
  g_autoptr (GError) error = NULL;
  SwDocument *row;

  add_document (practice, 5, SW_DOCUMENT_PROTOCOL, &sw_books_protocol_named (source, "tigilanol-eu")->head);
  row = sw_facts_by_id (&practice->facts, SW_FACT_DOCUMENT, 5);
  g_bytes_unref (row->bytes);
  row->bytes = g_bytes_new_static ("<protocol", strlen ("<protocol"));
  books = sw_books_new (practice, &error);
  ck_assert_ptr_null (books);
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_RECORD));
}
END_TEST

START_TEST (test_books_without_documents)
{
  g_autoptr (GError) error = NULL;

  ck_assert_ptr_null (sw_books_new_shipped ("/nonexistent", &error));
  ck_assert (g_error_matches (error, SW_ERROR, SW_ERROR_DISK));
}
END_TEST

START_TEST (test_heads_in_order)
{
  g_autoptr (SwBooks) books = shipped ();
  g_autoptr (GPtrArray) heads = sw_books_heads (books);

  ck_assert_uint_eq (heads->len, 4 + 16 + 1);
  ck_assert_str_eq (((SwDocumentHead *) heads->pdata[0])->id, "ect-bleomycin-dog");
  ck_assert_str_eq (((SwDocumentHead *) heads->pdata[2])->id, "tigilanol-eu");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("documents");
  TCase *read = tcase_create ("read"), *ship = tcase_create ("shipped"), *books = tcase_create ("books");
  SRunner *runner;

  tcase_add_test (read, test_medicine);
  tcase_add_test (read, test_protocol_dose);
  tcase_add_test (read, test_protocol_selection);
  tcase_add_test (read, test_protocol_course);
  tcase_add_test (read, test_protocol_without_medicines);
  tcase_add_test (read, test_tiers);
  tcase_add_test (read, test_interactions);
  tcase_add_test (read, test_digest_is_of_the_bytes);
  tcase_add_test (ship, test_shipped_tigilanol);
  tcase_add_test (ship, test_shipped_counts);
  tcase_add_test (ship, test_shipped_unverified);
  tcase_add_test (ship, test_ticks);
  tcase_add_test (ship, test_shipped_medicines);
  tcase_add_test (ship, test_shipped_classes);
  tcase_add_test (ship, test_shipped_interactions);
  tcase_add_test (ship, test_heads_in_order);
  tcase_add_test (books, test_books_of_a_record);
  tcase_add_test (books, test_books_refuse_a_damaged_row);
  tcase_add_test (books, test_books_without_documents);
  suite_add_tcase (suite, read);
  suite_add_tcase (suite, ship);
  suite_add_tcase (suite, books);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
