/* test-interaction.c: each row of "What must be raised" (domain 3.2), with what raises it and what just does not
 *
 * Without a plan the protocol's own medicines are led in from today: prednisolone from today (day -2) to nine days on
 * (day +7), diphenhydramine and famotidine from day 0, two days on.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-interaction.h"

#include "case-fixture.h"
#include "sw-suitability.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

#define ON SW_NO_DAY /* goes on */
#define NO_VALUE SW_UNKNOWN
#define QUIET SW_N_SEVERITIES
#define STOP SW_STOP
#define VET SW_VET_DECIDES
#define NOTE SW_NOTE
#define UNSURE SW_NOT_KNOWN

typedef struct
{
  const char *substance; /* NULL: none */
  gint64 first, last;    /* days from today; ON */
  SwMedicineForm form;
  gint64 single, xylitol_free;
} Pack;

#define TABLET(substance, first, last) { substance, first, last, SW_FORM_TABLET, 1, SW_UNKNOWN }

#define DEPOT(substance, day) { substance, day, day, SW_FORM_DEPOT, 1, SW_UNKNOWN }

static const struct
{
  const char *row;       /* of the document */
  Pack packs[2];
  const char *question, *answer;
  gint64 date;           /* days from today, NO_VALUE */
  const char *choices;   /* planned to be signed today with day 0 in two days; NULL: the protocol's own */
  SwFindingCode code;
  int wanted;            /* severity, or QUIET: the row finds nothing */
} rows[] = {
  /* corticosteroid with NSAID at the same time: stop */
  { "corticosteroid-with-nsaid", { TABLET ("carprofen", -30, ON) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("aspirin", -30, 0) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("firocoxib", 9, 12) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("unknown-nsaid", -3, ON) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("carprofen", -30, -1) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = QUIET },
  { "corticosteroid-with-nsaid", { TABLET ("cetirizine", -30, ON) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = QUIET },
  /* NSAID before: meloxicam 5 days, other 7, aspirin 10, a month-long one 30; unknown NSAID: not known */
  { "nsaid-washout", { TABLET ("meloxicam", -30, -4) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("meloxicam", -30, -5) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("carprofen", -30, -6) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("carprofen", -30, -7) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("robenacoxib", -30, -6) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("robenacoxib", -30, -7) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("aspirin", -30, -9) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("aspirin", -30, -10) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("mavacoxib", -30, -29) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("mavacoxib", -30, -30) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("unknown-nsaid", -40, -29) }, .code = SW_FINDING_WASHOUT_NOT_KNOWN, .wanted = UNSURE },
  { "nsaid-washout", { TABLET ("unknown-nsaid", -40, -30) }, .code = SW_FINDING_WASHOUT_NOT_KNOWN, .wanted = QUIET },
  /* after the course none before day +7 plus washout */
  { "nsaid-washout", { TABLET ("carprofen", 15, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  { "nsaid-washout", { TABLET ("carprofen", 16, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("meloxicam", 13, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  { "nsaid-washout", { TABLET ("meloxicam", 14, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET },
  /* after a depot corticosteroid longer: six weeks [memory] */
  { "depot-corticosteroid-washout", { DEPOT ("methylprednisolone-acetate", -40), TABLET ("carprofen", 1, ON) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  { "depot-corticosteroid-washout", { DEPOT ("methylprednisolone-acetate", -41), TABLET ("carprofen", 1, ON) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET },
  { "depot-corticosteroid-washout", { DEPOT ("triamcinolone-acetonide", -40), TABLET ("carprofen", -9, -1) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET }, /* over */
  { "depot-corticosteroid-with-nsaid", { DEPOT ("triamcinolone-acetonide", 0), TABLET ("carprofen", -9, 0) },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "nsaid-washout", { TABLET ("dexamethasone", -30, -3), TABLET ("carprofen", 3, 3) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  { "nsaid-washout", { TABLET ("dexamethasone", -30, -4), TABLET ("carprofen", 3, 3) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET },
  /* two NSAIDs; NSAID with aspirin: stop */
  { "two-nsaids", { TABLET ("carprofen", -30, ON), TABLET ("meloxicam", -2, ON) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "two-nsaids", { TABLET ("carprofen", -30, 0), TABLET ("aspirin", -2, 3) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "two-nsaids", { TABLET ("carprofen", -30, -3), TABLET ("aspirin", -2, 3) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = QUIET },
  { "two-nsaids", { TABLET ("carprofen", -30, -3), TABLET ("aspirin", -30, -3) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = QUIET },
  /* already taken (60 days): vet decides; doubles stop */
  { "corticosteroid-taken", { TABLET ("dexamethasone", -90, -60) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN,
    .wanted = VET },
  { "corticosteroid-taken", { TABLET ("dexamethasone", -90, -61) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN,
    .wanted = QUIET },
  { "corticosteroid-taken", { TABLET ("prednisone", SW_NO_DAY, ON) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN,
    .wanted = VET },
  { "depot-corticosteroid-taken", { DEPOT ("methylprednisolone-acetate", -20) },
    .code = SW_FINDING_CORTICOSTEROID_TAKEN, .wanted = VET },
  { "depot-corticosteroid-taken", { DEPOT ("methylprednisolone-acetate", -61) },
    .code = SW_FINDING_CORTICOSTEROID_TAKEN, .wanted = QUIET },
  { "antihistamine-taken", { TABLET ("hydroxyzine", -60, -58) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = VET },
  { "antihistamine-taken", { TABLET ("hydroxyzine", -60, -59) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = QUIET },
  { "acid-blocker-taken", { TABLET ("ranitidine", -60, -58) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = VET },
  { "acid-blocker-taken", { TABLET ("ranitidine", -60, -59) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = QUIET },
  { "corticosteroid-double", { TABLET ("prednisolone", SW_NO_DAY, ON) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  { "corticosteroid-double", { TABLET ("prednisolone", SW_NO_DAY, -1) }, .code = SW_FINDING_DOUBLED, .wanted = QUIET },
  { "antihistamine-double", { TABLET ("cetirizine", -9, 2) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  { "antihistamine-double", { TABLET ("cetirizine", -9, 1) }, .code = SW_FINDING_DOUBLED, .wanted = QUIET },
  { "acid-blocker-double", { TABLET ("omeprazole", -9, 2) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  { "acid-blocker-double", { TABLET ("omeprazole", -9, 1) }, .code = SW_FINDING_DOUBLED, .wanted = QUIET },
  /* tramadol with SSRI or MAO inhibitor (selegiline, amitraz collar or dip): stop */
  { "tramadol-with-ssri", { TABLET ("tramadol", -3, ON), TABLET ("fluoxetine", -90, ON) },
    .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "tramadol-with-ssri", { TABLET ("tramadol", -9, -3), TABLET ("fluoxetine", -2, ON) },
    .code = SW_FINDING_MEDICINE_STOP,
    .wanted = QUIET },
  { "tramadol-with-mao-inhibitor", { TABLET ("tramadol", -3, ON), TABLET ("selegiline", -90, ON) },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "tramadol-with-mao-inhibitor",
    { TABLET ("tramadol", -3, ON), { "amitraz", -30, ON, SW_FORM_COLLAR_OR_DIP, 1, SW_UNKNOWN } },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "tramadol-with-mao-inhibitor", { TABLET ("tramadol", -3, ON) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = QUIET },
  /* live vaccine with corticosteroid: stop within 4 weeks */
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", -27, .code = SW_FINDING_TOO_NEAR,
    .wanted = STOP },
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", -28, .code = SW_FINDING_TOO_NEAR,
    .wanted = QUIET },
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", NO_VALUE,
    .code = SW_FINDING_TOO_NEAR_NO_DATE, .wanted = UNSURE },
  { "corticosteroid-with-live-vaccine-planned", { { NULL } }, "live-vaccine", "planned", 36,
    .code = SW_FINDING_TOO_NEAR,
    .wanted = STOP },
  { "corticosteroid-with-live-vaccine-planned", { { NULL } }, "live-vaccine", "planned", 37,
    .code = SW_FINDING_TOO_NEAR,
    .wanted = QUIET },
  { "corticosteroid-with-live-vaccine-planned", { { NULL } }, "live-vaccine", "none", NO_VALUE,
    .code = SW_FINDING_TOO_NEAR,
    .wanted = QUIET },
  /* corticosteroid with these diseases: vet decides */
  { "corticosteroid-with-diabetes", { { NULL } }, "diabetes", "yes", NO_VALUE, .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = VET },
  { "corticosteroid-with-hyperadrenocorticism", { { NULL } }, "hyperadrenocorticism", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-gastric-ulcer", { { NULL } }, "gastric-ulcer", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-corneal-ulcer", { { NULL } }, "corneal-ulcer", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-infection", { { NULL } }, "infection", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = VET },
  { "corticosteroid-with-heart-disease", { { NULL } }, "heart-disease", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-kidney-disease", { { NULL } }, "kidney-disease", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-liver-disease", { { NULL } }, "liver-disease", "yes", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "corticosteroid-with-liver-disease", { { NULL } }, "liver-disease", "no", NO_VALUE,
    .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = QUIET },
  /* kinase inhibitor, anticoagulant, ciclosporin, chemotherapy: vet decides */
  { "takes-kinase-inhibitor", { TABLET ("toceranib", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = VET },
  { "takes-kinase-inhibitor", { TABLET ("toceranib", -30, -1) }, .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = QUIET },
  { "takes-anticoagulant", { TABLET ("clopidogrel", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = VET },
  { "takes-immunosuppressant", { TABLET ("ciclosporin", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES,
    .wanted = VET },
  { "takes-chemotherapy", { TABLET ("lomustine", -1, 20) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  /* any human liquid or soft tablet: stop until "no xylitol" is ticked for that pack */
  { "xylitol", { { "gabapentin", -3, ON, SW_FORM_LIQUID, 1, SW_UNKNOWN } }, .code = SW_FINDING_XYLITOL,
    .wanted = STOP },
  { "xylitol", { { "gabapentin", -3, ON, SW_FORM_LIQUID, 1, 0 } }, .code = SW_FINDING_XYLITOL, .wanted = STOP },
  { "xylitol", { { "gabapentin", -3, ON, SW_FORM_LIQUID, 1, 1 } }, .code = SW_FINDING_XYLITOL, .wanted = QUIET },
  { "xylitol", { { "fluoxetine", -3, ON, SW_FORM_SOFT_TABLET, 1, SW_UNKNOWN } }, .code = SW_FINDING_XYLITOL,
    .wanted = STOP },
  { "xylitol", { TABLET ("gabapentin", -3, ON) }, .code = SW_FINDING_XYLITOL, .wanted = QUIET },
  { "xylitol", { { "gabapentin", -9, -1, SW_FORM_LIQUID, 1, SW_UNKNOWN } }, .code = SW_FINDING_XYLITOL,
    .wanted = QUIET },
  /* antihistamine that is not a single substance: stop */
  { "mixed-antihistamine", { { "loratadine", -3, ON, SW_FORM_TABLET, 0, SW_UNKNOWN } }, .code = SW_FINDING_MIXED_PACK,
    .wanted = STOP },
  { "mixed-antihistamine", { { "loratadine", -3, ON, SW_FORM_TABLET, SW_UNKNOWN, SW_UNKNOWN } },
    .code = SW_FINDING_MIXED_NOT_KNOWN, .wanted = UNSURE },
  { "mixed-antihistamine", { TABLET ("loratadine", -3, ON) }, .code = SW_FINDING_MIXED_PACK, .wanted = QUIET },
  { "mixed-antihistamine", { { "gabapentin", -3, ON, SW_FORM_TABLET, 0, SW_UNKNOWN } }, .code = SW_FINDING_MIXED_PACK,
    .wanted = QUIET },
  /* morphine, pethidine in a dog with a mast cell tumour: note */
  { "histamine-releasing-opioid", { { "morphine", 2, 2, SW_FORM_INJECTION, 1, SW_UNKNOWN } },
    .code = SW_FINDING_MEDICINE_NOTED,
    .wanted = NOTE },
  { "histamine-releasing-opioid", { { "pethidine", 2, 2, SW_FORM_INJECTION, 1, SW_UNKNOWN } },
    .code = SW_FINDING_MEDICINE_NOTED, .wanted = NOTE },
  /* a medicine of the plan meets one from elsewhere: only when it is chosen */
  { "two-nsaids", { { NULL } }, .choices = "pain=gabapentin", .code = SW_FINDING_MEDICINE_STOP, .wanted = QUIET },
  { "acid-blocker-double", { TABLET ("famotidine", -9, 0) }, .choices = "h2=omeprazole", .code = SW_FINDING_DOUBLED,
    .wanted = STOP }, /* omeprazole begins on day -2 */
  { "acid-blocker-double", { TABLET ("famotidine", -9, 0) }, .choices = "h2=famotidine", .code = SW_FINDING_DOUBLED,
    .wanted = QUIET },
};

static SwDay
day_of (gint64 offset)
{
  return offset == SW_NO_DAY ? SW_NO_DAY : TODAY + offset;
}

static void
put_packs (Fixture *fixture, const Pack packs[2])
{
  for (int i = 0; i < 2; i++)
    if (packs[i].substance != NULL)
      {
        SwMedicineTaken *taken = fixture_take (fixture, packs[i].substance, day_of (packs[i].first),
                                               day_of (packs[i].last));

        taken->form = packs[i].form;
        taken->single_substance = packs[i].single;
        taken->xylitol_free = packs[i].xylitol_free;
      }
}

/* The worst finding of a row of the document: its about begins with the row's name. */
static const SwFinding *
finding_of_row (const GPtrArray *findings, const char *row, SwFindingCode code)
{
  g_autofree char *prefix = g_strconcat (row, "/", NULL);

  for (guint i = 0; i < findings->len; i++)
    {
      const SwFinding *finding = findings->pdata[i];

      if (finding->code == code && finding->about != NULL && g_str_has_prefix (finding->about, prefix))
        return finding;
    }
  return NULL;
}

START_TEST (test_every_row)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;
  const SwFinding *finding;

  put_packs (fixture, rows[_i].packs);
  if (rows[_i].question != NULL)
    fixture_answer (fixture, rows[_i].question, rows[_i].answer, day_of (rows[_i].date));
  if (rows[_i].choices != NULL)
    findings = sw_interactions_of_plan (&fixture->c, TODAY + 2, rows[_i].choices);
  else
    findings = sw_interactions_check (&fixture->c);
  check_sentences (findings);
  finding = finding_of_row (findings, rows[_i].row, rows[_i].code);
  ck_assert_msg ((finding == NULL ? QUIET : (int) finding->severity) == rows[_i].wanted, "row %d, %s", _i,
                 rows[_i].row);
  ck_assert (finding == NULL || finding->mark != NULL);
}
END_TEST

START_TEST (test_table_is_whole)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwInteractions *document = sw_books_interactions (fixture->books);

  for (guint i = 0; i < document->rows->len; i++)
    {
      const SwInteraction *row = document->rows->pdata[i];
      gboolean fires = FALSE;

      for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
        fires = fires || (g_str_equal (rows[r].row, row->id) && rows[r].wanted != QUIET);
      ck_assert_msg (fires, "%s is never shown to fire", row->id);
    }
}
END_TEST

START_TEST (test_clean_dog)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = sw_interactions_check (&fixture->c);

  ck_assert_int_eq (findings->len, 1);
  ck_assert_int_eq (severity_about (findings, "medicine-history"), SW_MEETS);
}
END_TEST

/* Each disease, the vaccine and the history have to be asked. */
START_TEST (test_unanswered)
{
  static const char *const questions[] = { "diabetes", "hyperadrenocorticism", "gastric-ulcer", "corneal-ulcer",
                                           "infection", "heart-disease", "kidney-disease", "liver-disease",
                                           "live-vaccine",
                                           "medicine-history" };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  fixture_unanswer (fixture, questions[_i]);
  findings = sw_interactions_check (&fixture->c);
  check_sentences (findings);
  ck_assert_int_eq (severity_about (findings, questions[_i]), SW_NOT_KNOWN);
  /* Once, though two rows ask of the vaccine. */
  ck_assert_int_eq (findings->len, _i == G_N_ELEMENTS (questions) - 1 ? 1 : 2);
}
END_TEST

START_TEST (test_incomplete_history)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  fixture_answer (fixture, "medicine-history", "incomplete", SW_UNKNOWN);
  findings = sw_interactions_check (&fixture->c);
  ck_assert_int_eq (severity_about (findings, "medicine-history"), SW_NOT_KNOWN);
}
END_TEST

/* The practice may lengthen a washout, never shorten it. */
START_TEST (test_practice_washout)
{
  static const struct { const char *days; SwDay last; int wanted; } settings[] = {
    { "8", -7, STOP }, { "8", -8, QUIET }, { "2", -4, STOP }, { "2", -5, QUIET }, { "5", -5, QUIET },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;
  const SwFinding *finding;

  fixture_setting (fixture, "washout.meloxicam", settings[_i].days);
  fixture_take (fixture, "meloxicam", TODAY - 20, TODAY + settings[_i].last);
  findings = sw_interactions_check (&fixture->c);
  finding = find_finding (findings, SW_FINDING_WASHOUT_BEFORE, NULL);
  ck_assert_int_eq (finding == NULL ? QUIET : (int) finding->severity, settings[_i].wanted);
}
END_TEST

/* Washouts over by day -2 of the planned date, with the date from which it is open. */
START_TEST (test_washout_with_plan)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) near = NULL, open = NULL;
  g_autofree char *sentence = NULL, *next = NULL;
  const SwFinding *finding;

  fixture_take (fixture, "meloxicam", TODAY - 20, TODAY - 1); /* 9 May, so open from 14 May */
  near = sw_interactions_of_plan (&fixture->c, TODAY + 5, ""); /* day -2: 13 May */
  finding = find_finding (near, SW_FINDING_WASHOUT_BEFORE, "nsaid-washout/meloxicam");
  ck_assert_ptr_nonnull (finding);
  sentence = sw_finding_sentence (finding);
  next = sw_finding_next (finding);
  ck_assert_str_eq (sentence, "Meloxicam was last given on 2026-05-09; its washout of 5 days runs until 2026-05-14, "
                              "and prednisolone begins on 2026-05-13.");
  ck_assert_str_eq (next, "Take 2026-05-16 or later as day 0.");
  open = sw_interactions_of_plan (&fixture->c, TODAY + 6, "");
  ck_assert_ptr_null (find_finding (open, SW_FINDING_WASHOUT_BEFORE, NULL));
}
END_TEST

/* The day from which the other kind may begin: the last dose and the days of the washout. */
START_TEST (test_washout_of_taken)
{
  static const struct { const char *substance; SwDay last; gint64 days; SwDay open; } packs[] = {
    { "meloxicam", TODAY - 1, 5, TODAY + 4 },
    { "carprofen", TODAY - 1, 7, TODAY + 6 },
    { "robenacoxib", TODAY - 1, 7, TODAY + 6 },
    { "aspirin", TODAY - 1, 10, TODAY + 9 },
    { "mavacoxib", TODAY - 1, 30, TODAY + 29 },
    { SW_UNKNOWN_NSAID, TODAY - 1, 30, TODAY + 29 },
    { "methylprednisolone-acetate", TODAY - 1, 42, TODAY + 41 },
    { "carprofen", SW_NO_DAY, 7, SW_NO_DAY },
    { "gabapentin", TODAY - 1, SW_UNKNOWN, SW_NO_DAY },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  const SwMedicineTaken *taken = fixture_take (fixture, packs[_i].substance, TODAY - 20, packs[_i].last);
  gint64 days;
  SwDay open;

  ck_assert (sw_washout_of (&fixture->c, taken, &days, &open) == (packs[_i].days != SW_UNKNOWN));
  ck_assert_int_eq (days, packs[_i].days);
  ck_assert_int_eq (open, packs[_i].open);
}
END_TEST

static void
put_dose (Fixture *fixture, const char *substance, SwDay due, gint64 volume_nl)
{
  SwDosePlan *dose = sw_new (SW_FACT_DOSE_PLAN, SwDosePlan);

  dose->course = fixture->c.course;
  dose->dose = due;
  dose->substance = g_strdup (substance);
  dose->group = g_strdup ("pain");
  dose->due_day = due;
  dose->volume_nl = volume_nl;
  fixture_put (fixture, dose);
}

/* Doses on record beyond the document count: the corticosteroid went on while the day moved. */
START_TEST (test_recorded_doses_count)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) without = NULL, with = NULL;

  fixture_plan (fixture, TODAY + 6, "");
  /* Open from four days on, when the document's lead-in begins. */
  fixture_take (fixture, "carprofen", TODAY - 9, TODAY - 3);
  without = sw_interactions_check (&fixture->c);
  ck_assert_ptr_null (find_finding (without, SW_FINDING_WASHOUT_BEFORE, NULL));
  put_dose (fixture, "prednisolone", TODAY + 1, SW_UNKNOWN);
  with = sw_interactions_check (&fixture->c);
  ck_assert_ptr_nonnull (find_finding (with, SW_FINDING_WASHOUT_BEFORE, NULL));
}
END_TEST

/* A draft replaces what is planned and not yet due, so that another choice can settle a stop. */
START_TEST (test_draft_drops_doses_to_come)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) in_force = NULL, draft = NULL;

  fixture_plan (fixture, TODAY + 2, "pain=tramadol");
  put_dose (fixture, "tramadol", TODAY + 2, SW_UNKNOWN);
  fixture_take (fixture, "fluoxetine", TODAY - 9, SW_NO_DAY);
  in_force = sw_interactions_check (&fixture->c);
  ck_assert_ptr_nonnull (find_finding (in_force, SW_FINDING_MEDICINE_STOP, "tramadol-with-ssri/tramadol+fluoxetine"));
  draft = sw_interactions_of_plan (&fixture->c, TODAY + 2, "pain=gabapentin");
  ck_assert_ptr_null (find_finding (draft, SW_FINDING_MEDICINE_STOP, NULL));
}
END_TEST

START_TEST (test_planned_liquid)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) before = NULL, unread = NULL, read = NULL;

  fixture_plan (fixture, TODAY + 2, "");
  put_dose (fixture, "gabapentin", TODAY + 2, 2000000);
  before = sw_interactions_check (&fixture->c);
  check_sentences (before);
  ck_assert_int_eq (severity_about (before, "xylitol/gabapentin"), SW_STOP);
  fixture_answer (fixture, "packs-xylitol", "not-read", SW_UNKNOWN);
  unread = sw_interactions_check (&fixture->c);
  ck_assert_int_eq (severity_about (unread, "xylitol/gabapentin"), SW_STOP);
  fixture_answer (fixture, "packs-xylitol", "read-free", SW_UNKNOWN);
  read = sw_interactions_check (&fixture->c);
  ck_assert_int_eq (severity_about (read, "xylitol/gabapentin"), SW_N_SEVERITIES);
}
END_TEST

/* 12.3 mg twice a day at 24.6 kg is 1 mg/kg a day, and the plan's 0.5 mg/kg twice a day is another: 2. */
START_TEST (test_total_as_prednisolone)
{
  static const struct { const char *substance; gint64 dose_ug, per_day; SwDay last; const char *total; } packs[] = {
    { "prednisone", 12300, 2000, SW_NO_DAY, "counted as prednisolone: 2 mg/kg a day." },
    { "prednisolone", 12300, 2000, TODAY - 3, "counted as prednisolone: 1 mg/kg a day." },
    { "prednisolone", 12300, 500, SW_NO_DAY, "counted as prednisolone: 1.25 mg/kg a day." },
    { "prednisolone", SW_UNKNOWN, 2000, SW_NO_DAY, "counted as prednisolone: not known." },
    { "dexamethasone", 1000, 1000, SW_NO_DAY, "counted as prednisolone: not known." },
  };
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  SwMedicineTaken *taken = fixture_take (fixture, packs[_i].substance, TODAY - 30, packs[_i].last);
  g_autoptr (GPtrArray) findings = NULL;
  g_autofree char *sentence = NULL;

  taken->dose_ug = packs[_i].dose_ug;
  taken->per_day_milli = packs[_i].per_day;
  findings = sw_interactions_check (&fixture->c);
  sentence = sw_finding_sentence (find_finding (findings, SW_FINDING_CORTICOSTEROID_TAKEN, NULL));
  ck_assert_msg (g_str_has_suffix (sentence, packs[_i].total), "%s", sentence);
}
END_TEST

START_TEST (test_unknown_names)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  fixture_take (fixture, "phenobarbital", TODAY - 300, SW_NO_DAY);
  fixture_take (fixture, "itraconazole", TODAY - 300, TODAY - 200);
  findings = sw_interactions_check (&fixture->c);
  check_sentences (findings);
  ck_assert_int_eq (severity_about (findings, "phenobarbital"), SW_VET_DECIDES);
  ck_assert_int_eq (severity_about (findings, "itraconazole"), SW_N_SEVERITIES);
}
END_TEST

START_TEST (test_withdrawn_medicine_is_forgotten)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (GPtrArray) findings = NULL;

  fixture_put (fixture, sw_fact_withdrawal (fixture_take (fixture, "carprofen", TODAY - 9, SW_NO_DAY)));
  findings = sw_interactions_check (&fixture->c);
  ck_assert_int_eq (findings->len, 1);
}
END_TEST

START_TEST (test_no_document)
{
  g_autoptr (Fixture) fixture = fixture_new ("tigilanol-eu");
  g_autoptr (SwPractice) bare = sw_practice_new ();
  g_autoptr (SwBooks) books = sw_books_new (bare, NULL);
  g_autoptr (GPtrArray) findings = NULL;

  fixture->c.books = books;
  findings = sw_interactions_check (&fixture->c);
  ck_assert_ptr_nonnull (find_finding (findings, SW_FINDING_NO_INTERACTIONS, NULL));
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("interaction");
  TCase *tcase = tcase_create ("interaction");
  SRunner *runner;

  tcase_set_timeout (tcase, 60);
  tcase_add_loop_test (tcase, test_every_row, 0, G_N_ELEMENTS (rows));
  tcase_add_test (tcase, test_table_is_whole);
  tcase_add_test (tcase, test_clean_dog);
  tcase_add_loop_test (tcase, test_unanswered, 0, 10);
  tcase_add_test (tcase, test_incomplete_history);
  tcase_add_loop_test (tcase, test_practice_washout, 0, 5);
  tcase_add_test (tcase, test_washout_with_plan);
  tcase_add_loop_test (tcase, test_washout_of_taken, 0, 9);
  tcase_add_test (tcase, test_recorded_doses_count);
  tcase_add_test (tcase, test_draft_drops_doses_to_come);
  tcase_add_test (tcase, test_planned_liquid);
  tcase_add_loop_test (tcase, test_total_as_prednisolone, 0, 5);
  tcase_add_test (tcase, test_unknown_names);
  tcase_add_test (tcase, test_withdrawn_medicine_is_forgotten);
  tcase_add_test (tcase, test_no_document);
  suite_add_tcase (suite, tcase);
  runner = srunner_create (suite);
  srunner_run_all (runner, CK_ENV);
  return srunner_ntests_failed (runner) == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
