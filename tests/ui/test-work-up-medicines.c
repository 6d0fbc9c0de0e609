/* test-work-up-medicines.c: each row of "What must be raised" (domain 3.2) is entered in the window and shown to fire there
 *
 * No plan is signed: the protocol's own medicines are led in from today (day -2) to nine days on (day +7), H1 and H2 blockers from
 * two days on. What just does not fire stands beside what does.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "work-up-ui.h"

#include "sw-medicine-dialog.h"
#include "sw-quantity-entry.h"
#include "sw-workup-medicines.h"

#include <string.h>

#define ON SW_NO_DAY
#define QUIET SW_N_SEVERITIES
#define STOP SW_STOP
#define VET SW_VET_DECIDES
#define UNSURE SW_NOT_KNOWN
#define TABLET(substance, first, last) { substance, first, last, SW_FORM_TABLET, 1 }
#define DEPOT(substance, day) { substance, day, day, SW_FORM_DEPOT, 1 }

static const struct
{
  const char *row; /* of the document, or the whole of `about` */
  UiPack packs[2];
  const char *question, *answer, *extra;
  SwFindingCode code;
  int wanted;
} rows[] = {
  /* corticosteroid with NSAID at the same time */
  { "corticosteroid-with-nsaid", { TABLET ("carprofen", -30, ON) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("unknown-nsaid", -3, ON) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "corticosteroid-with-nsaid", { TABLET ("carprofen", -30, -1) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = QUIET },
  { "depot-corticosteroid-with-nsaid", { DEPOT ("triamcinolone-acetonide", 0), TABLET ("carprofen", -9, 0) },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  /* inside the washout: meloxicam 5 days, other 7, aspirin 10, a month-long one 30, unknown: not known */
  { "nsaid-washout", { TABLET ("meloxicam", -30, -4) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("meloxicam", -30, -5) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("robenacoxib", -30, -6) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("robenacoxib", -30, -7) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = QUIET },
  { "nsaid-washout", { TABLET ("aspirin", -30, -9) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("mavacoxib", -30, -29) }, .code = SW_FINDING_WASHOUT_BEFORE, .wanted = STOP },
  { "nsaid-washout", { TABLET ("unknown-nsaid", -40, -29) }, .code = SW_FINDING_WASHOUT_NOT_KNOWN, .wanted = UNSURE },
  { "nsaid-washout", { TABLET ("carprofen", 15, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  { "nsaid-washout", { TABLET ("carprofen", 16, ON) }, .code = SW_FINDING_WASHOUT_AFTER, .wanted = QUIET },
  { "depot-corticosteroid-washout", { DEPOT ("methylprednisolone-acetate", -40), TABLET ("carprofen", 1, ON) },
    .code = SW_FINDING_WASHOUT_AFTER, .wanted = STOP },
  /* two NSAIDs; NSAID with aspirin */
  { "two-nsaids", { TABLET ("carprofen", -30, ON), TABLET ("meloxicam", -2, ON) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "two-nsaids", { TABLET ("carprofen", -30, 0), TABLET ("aspirin", -2, 3) }, .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  /* corticosteroid, antihistamine, acid blocker already taken: vet decides; doubles stop */
  { "corticosteroid-taken", { TABLET ("dexamethasone", -90, -60) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN, .wanted = VET },
  { "corticosteroid-taken", { TABLET ("dexamethasone", -90, -61) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN, .wanted = QUIET },
  { "depot-corticosteroid-taken", { DEPOT ("methylprednisolone-acetate", -20) }, .code = SW_FINDING_CORTICOSTEROID_TAKEN,
    .wanted = VET },
  { "antihistamine-taken", { TABLET ("hydroxyzine", -60, -58) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = VET },
  { "acid-blocker-taken", { TABLET ("ranitidine", -60, -58) }, .code = SW_FINDING_SAME_KIND_TAKEN, .wanted = VET },
  { "corticosteroid-double", { TABLET ("prednisolone", SW_NO_DAY, ON) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  { "antihistamine-double", { TABLET ("cetirizine", -9, 2) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  { "antihistamine-double", { TABLET ("cetirizine", -9, 1) }, .code = SW_FINDING_DOUBLED, .wanted = QUIET },
  { "acid-blocker-double", { TABLET ("omeprazole", -9, 2) }, .code = SW_FINDING_DOUBLED, .wanted = STOP },
  /* tramadol with SSRI or MAO inhibitor */
  { "tramadol-with-ssri", { TABLET ("tramadol", -3, ON), TABLET ("fluoxetine", -90, ON) }, .code = SW_FINDING_MEDICINE_STOP,
    .wanted = STOP },
  { "tramadol-with-mao-inhibitor", { TABLET ("tramadol", -3, ON), { "amitraz", -30, ON, SW_FORM_COLLAR_OR_DIP, 1 } },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  { "tramadol-with-mao-inhibitor", { TABLET ("tramadol", -3, ON), TABLET ("selegiline", -90, ON) },
    .code = SW_FINDING_MEDICINE_STOP, .wanted = STOP },
  /* live vaccine within 4 weeks of the corticosteroid */
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", "2026-04-16", SW_FINDING_TOO_NEAR, STOP },
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", "2026-04-15", SW_FINDING_TOO_NEAR, QUIET },
  { "corticosteroid-with-live-vaccine-given", { { NULL } }, "live-vaccine", "given", NULL, SW_FINDING_TOO_NEAR_NO_DATE, UNSURE },
  { "corticosteroid-with-live-vaccine-planned", { { NULL } }, "live-vaccine", "planned", "2026-06-18", SW_FINDING_TOO_NEAR, STOP },
  { "corticosteroid-with-live-vaccine-planned", { { NULL } }, "live-vaccine", "planned", "2026-06-19", SW_FINDING_TOO_NEAR, QUIET },
  { "live-vaccine", { { NULL } }, "live-vaccine", NULL, NULL, SW_FINDING_UNANSWERED, UNSURE },
  /* corticosteroid with these diseases: vet decides; not asked: not known */
  { "corticosteroid-with-diabetes", { { NULL } }, "diabetes", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "diabetes", { { NULL } }, "diabetes", NULL, NULL, SW_FINDING_UNANSWERED, UNSURE },
  { "corticosteroid-with-hyperadrenocorticism", { { NULL } }, "hyperadrenocorticism", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES,
    VET },
  { "corticosteroid-with-gastric-ulcer", { { NULL } }, "gastric-ulcer", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "corticosteroid-with-corneal-ulcer", { { NULL } }, "corneal-ulcer", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "corticosteroid-with-infection", { { NULL } }, "infection", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "corticosteroid-with-heart-disease", { { NULL } }, "heart-disease", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "corticosteroid-with-kidney-disease", { { NULL } }, "kidney-disease", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  { "corticosteroid-with-liver-disease", { { NULL } }, "liver-disease", "yes", NULL, SW_FINDING_MEDICINE_VET_DECIDES, VET },
  /* kinase inhibitor, anticoagulant, ciclosporin, chemotherapy: vet decides */
  { "takes-kinase-inhibitor", { TABLET ("toceranib", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "takes-kinase-inhibitor", { TABLET ("toceranib", -30, -1) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = QUIET },
  { "takes-anticoagulant", { TABLET ("clopidogrel", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "takes-immunosuppressant", { TABLET ("ciclosporin", -30, ON) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  { "takes-chemotherapy", { TABLET ("lomustine", -1, 20) }, .code = SW_FINDING_MEDICINE_VET_DECIDES, .wanted = VET },
  /* a liquid or soft tablet: stop until "no xylitol" is ticked for that pack */
  { "xylitol", { { "gabapentin", -3, ON, SW_FORM_LIQUID, 1 } }, .code = SW_FINDING_XYLITOL, .wanted = STOP },
  { "xylitol", { { "gabapentin", -3, ON, SW_FORM_LIQUID, 1, TRUE } }, .code = SW_FINDING_XYLITOL, .wanted = QUIET },
  { "xylitol", { { "fluoxetine", -3, ON, SW_FORM_SOFT_TABLET, 1 } }, .code = SW_FINDING_XYLITOL, .wanted = STOP },
  /* an antihistamine that is not a single substance: stop */
  { "mixed-antihistamine", { { "loratadine", -3, ON, SW_FORM_TABLET, 0 } }, .code = SW_FINDING_MIXED_PACK, .wanted = STOP },
  { "mixed-antihistamine", { { "loratadine", -3, ON, SW_FORM_TABLET, SW_UNKNOWN } }, .code = SW_FINDING_MIXED_NOT_KNOWN,
    .wanted = UNSURE },
  { "mixed-antihistamine", { TABLET ("loratadine", -3, ON) }, .code = SW_FINDING_MIXED_PACK, .wanted = QUIET },
  /* morphine, pethidine: note */
  { "histamine-releasing-opioid", { { "morphine", 2, 2, SW_FORM_INJECTION, 1 } }, .code = SW_FINDING_MEDICINE_NOTED,
    .wanted = SW_NOTE },
  { "histamine-releasing-opioid", { { "pethidine", 2, 2, SW_FORM_INJECTION, 1 } }, .code = SW_FINDING_MEDICINE_NOTED,
    .wanted = SW_NOTE },
  /* a name that no document knows is said to be checked against nothing */
  { "phenobarbital", { TABLET ("Phenobarbital", -300, ON) }, .code = SW_FINDING_NOT_CHECKED, .wanted = VET },
};

static UiWorkUp *work_up;

static void
open_window (void)
{
  work_up = ui_work_up_new ();
  ui_work_up_make_good (work_up);
}

static void
close_window (void)
{
  ui_work_up_free (work_up);
}

static const char *
usual_answer (const char *question)
{
  return g_str_equal (question, "live-vaccine") ? "none" : "no";
}

static void
check_row (guint i)
{
  const char *about = rows[i].row;
  int severity;

  for (int k = 0; k < 2; k++)
    if (rows[i].packs[k].substance != NULL)
      ui_work_up_take (work_up, &rows[i].packs[k]);
  if (rows[i].question != NULL)
    ui_work_up_answer (work_up, rows[i].question, rows[i].answer, rows[i].extra);
  severity = ui_work_up_severity (work_up, rows[i].code, about);
  ck_assert_msg (severity == rows[i].wanted, "row %u, %s: %d", i, about, severity);
  if (rows[i].question != NULL)
    ui_work_up_answer (work_up, rows[i].question, usual_answer (rows[i].question), NULL);
  ui_work_up_take_nothing (work_up);
  ck_assert_uint_eq (ui_work_up_blocks (work_up), 0);
}

START_TEST (every_row_is_shown)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    check_row (i);
}
END_TEST

/* No row of the document is left out of the table. */
START_TEST (the_table_is_whole)
{
  const SwInteractions *document = sw_books_interactions (sw_page_context_books (ui_work_up_context (work_up)));

  for (guint i = 0; i < document->rows->len; i++)
    {
      const char *id = ((const SwInteraction *) document->rows->pdata[i])->id;
      gboolean fires = FALSE;

      for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
        fires = fires || (g_str_equal (rows[r].row, id) && rows[r].wanted != QUIET);
      ck_assert_msg (fires, "%s is never shown to fire", id);
    }
}
END_TEST

static gboolean
shows (GtkWidget *widget, const char *words)
{
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (shows (child, words))
      return TRUE;
  return FALSE;
}

static gboolean
dialog_is_gone (gpointer medicines)
{
  return sw_workup_medicines_get_dialog (medicines) == NULL;
}

static gboolean
shows_correction (gpointer medicines)
{
  return shows (medicines, "washout 7 days: open from 2026-05-19");
}

/* Listed with dose and washout; corrected in place; the finding stands under the medicine too. */
START_TEST (a_medicine_is_listed_and_corrected)
{
  GtkWidget *section = GTK_WIDGET (sw_workup_page_get_section (work_up->page, "medicines"));
  SwWorkUpMedicines *medicines = SW_WORKUP_MEDICINES (section);
  UiPack pack = { "carprofen", -30, -7, SW_FORM_TABLET, 1, FALSE, "112,5", "0.5" };
  const SwMedicineFields *fields;

  ui_work_up_take (work_up, &pack);
  ck_assert (shows (section, "112.5 mg 0.5 times a day · 2026-04-13 to 2026-05-06 · tablet"));
  ck_assert (shows (section, "washout 7 days: over since 2026-05-13"));
  ck_assert (!shows (section, "was last given on"));
  ui_click (sw_workup_medicines_get_button (medicines, 0, "correct"));
  fields = sw_medicine_dialog_fields (sw_workup_medicines_get_dialog (medicines));
  sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (fields->last_day), "2026-04-12");
  ui_click (fields->save);
  ui_settle ();
  ck_assert_ptr_nonnull (sw_workup_medicines_get_dialog (medicines)); /* before the first day: refused, nothing lost */
  sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (fields->last_day), "2026-05-12");
  ui_click (fields->save);
  ui_wait (dialog_is_gone, medicines, "the dialog to close");
  ui_wait (shows_correction, medicines, "the corrected medicine");
  ck_assert (shows (section, "was last given on 2026-05-12"));
  ck_assert_ptr_null (sw_workup_medicines_get_button (medicines, 1, "correct"));
  ui_work_up_take_nothing (work_up);
  ck_assert (shows (section, "No medicine is listed."));
}
END_TEST

/* Neither a medicine without a name nor one without an end is recorded by forgetting. */
START_TEST (a_medicine_needs_name_and_end)
{
  SwWorkUpMedicines *medicines = SW_WORKUP_MEDICINES (sw_workup_page_get_section (work_up->page, "medicines"));
  const SwMedicineFields *fields;
  GtkWidget *dialog;

  ui_click (sw_workup_medicines_get_add (medicines));
  dialog = sw_workup_medicines_get_dialog (medicines);
  fields = sw_medicine_dialog_fields (dialog);
  ui_click (fields->save);
  ck_assert (shows (dialog, "Which substance is it?"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->known), 1);
  ui_click (fields->save);
  ck_assert (shows (dialog, "Give the day of the last dose, or tick that it goes on."));
  sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (fields->dose), "0");
  ui_click (fields->save);
  ck_assert (shows (dialog, "“0” is not over 0."));
  gtk_window_close (GTK_WINDOW (dialog));
  ui_wait (dialog_is_gone, medicines, "the dialog to close");
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("work-up-medicines");
  TCase *tcase = tcase_create ("work-up-medicines");

  ui_init ();
  tcase_set_timeout (tcase, 240);
  tcase_add_checked_fixture (tcase, open_window, close_window);
  tcase_add_test (tcase, every_row_is_shown);
  tcase_add_test (tcase, the_table_is_whole);
  tcase_add_test (tcase, a_medicine_is_listed_and_corrected);
  tcase_add_test (tcase, a_medicine_needs_name_and_end);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
