/* work-up-ui.c: driving the work-up page by its own widgets
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "work-up-ui.h"

#include "sw-decision-row.h"
#include "sw-document.h"
#include "sw-medicine-dialog.h"
#include "sw-patient-page.h"
#include "sw-quantity-entry.h"
#include "sw-workup-consent.h"
#include "sw-workup-course.h"
#include "sw-workup-dog.h"
#include "sw-workup-medicines.h"
#include "sw-workup-open.h"
#include "sw-workup-tumours.h"

/* --- the record and the window --- */

static void
adopt_shipped (const UiPractice *practice)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDesk) desk = sw_desk_open (practice->folder, practice->clock, &error);
  g_autoptr (SwBooks) books = sw_books_new_shipped (NULL, &error);
  SwRequest *request = sw_request_adopt (practice->person);
  g_autoptr (GPtrArray) heads = NULL;

  g_assert_no_error (error);
  heads = sw_books_heads (books);
  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];
      g_autoptr (GPtrArray) figures = sw_document_figures_to_tick (head);
      g_autoptr (GString) ticks = g_string_new (NULL);

      for (guint k = 0; k < figures->len; k++)
        g_string_append_printf (ticks, "%s%s", k > 0 ? ";" : "", ((const SwFigure *) figures->pdata[k])->name);
      if (sw_document_adoptable (head))
        sw_request_adopt_document (request, head->kind, head->bytes, ticks->str);
    }
  sw_reply_free (ui_perform (desk, request));
}

static UiWorkUp *
show (UiPractice *practice)
{
  UiWorkUp *self = g_new0 (UiWorkUp, 1);
  GtkWidget *patient_page;

  self->practice = practice;
  self->window = ui_open (practice->folder, practice->clock);
  ui_show_patient (self->window, practice->patient);
  patient_page = sw_window_get_patient_page (self->window);
  ck_assert (sw_patient_page_show_step (SW_PATIENT_PAGE (patient_page), "work-up"));
  self->page = SW_WORKUP_PAGE (ui_find_type (patient_page, SW_TYPE_WORKUP_PAGE));
  return self;
}

UiWorkUp *
ui_work_up_new (void)
{
  UiPractice *practice = ui_practice_new ();

  adopt_shipped (practice);
  return show (practice);
}

UiWorkUp *
ui_work_up_new_bare (void)
{
  return show (ui_practice_new ());
}

void
ui_work_up_free (UiWorkUp *self)
{
  ui_close (self->window);
  ui_practice_free (self->practice);
  g_free (self);
}

const SwPageContext *
ui_work_up_context (UiWorkUp *self)
{
  return sw_step_page_get_context (SW_STEP_PAGE (self->page));
}

SwDay
ui_work_up_today (void)
{
  return ui_begin ().day;
}

/* --- course --- */

static void
select_words (GtkWidget *choice, const char *words)
{
  GListModel *model = gtk_drop_down_get_model (GTK_DROP_DOWN (choice));

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (model, i);

      if (g_str_equal (gtk_string_object_get_string (item), words))
        {
          gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), i);
          return;
        }
    }
  ck_abort_msg ("no choice is called %s", words);
}

static gboolean
has_course (gpointer data)
{
  return ui_work_up_context (data)->course != 0;
}

void
ui_work_up_open_course (UiWorkUp *self, const char *protocol)
{
  SwWorkUpCourse *course = SW_WORKUP_COURSE (sw_workup_page_get_section (self->page, "course"));
  const SwProtocol *document = sw_books_protocol_named (sw_page_context_books (ui_work_up_context (self)), protocol);

  ck_assert_ptr_nonnull (document);
  sw_workup_page_show_section (self->page, "course");
  select_words (sw_workup_course_get_protocol (course), document->head.title);
  ui_click (sw_workup_course_get_open (course));
  ui_wait (has_course, self, "the course to be open");
}

/* --- answers --- */

typedef struct
{
  UiWorkUp *self;
  const SwQuestion *question;
  const char *answer;
  gint64 value;
} Answering;

static gint64
tumour_of (const UiWorkUp *self, const SwQuestion *question)
{
  return question->of == SW_ASKED_OF_TUMOUR ? self->practice->tumour : 0;
}

static gboolean
is_answered (gpointer data)
{
  Answering *a = data;
  const SwAnswer *answer = sw_dossier_answer (ui_work_up_context (a->self)->dossier, 0, tumour_of (a->self, a->question),
                                              a->question->code, ui_work_up_today ());

  if (a->answer == NULL || answer == NULL)
    return a->answer == NULL && answer == NULL;
  return g_str_equal (answer->answer, a->answer) && answer->value == a->value;
}

static SwQuestionForm *
form_of (UiWorkUp *self, const SwQuestion *question, GtkWidget **record)
{
  SwWorkUpTumours *tumours = SW_WORKUP_TUMOURS (sw_workup_page_get_section (self->page, "tumours"));
  SwWorkUpMedicines *medicines = SW_WORKUP_MEDICINES (sw_workup_page_get_section (self->page, "medicines"));
  SwWorkUpDog *dog = SW_WORKUP_DOG (sw_workup_page_get_section (self->page, "dog"));

  if (question->of == SW_ASKED_OF_TUMOUR)
    {
      *record = sw_workup_tumours_get_record (tumours);
      return sw_workup_tumours_get_form (tumours, self->practice->tumour);
    }
  if (sw_question_is_about_medicines (question))
    {
      *record = sw_workup_medicines_get_record (medicines);
      return sw_workup_medicines_get_form (medicines);
    }
  *record = sw_workup_dog_get_record (dog);
  return sw_workup_dog_get_form (dog);
}

static void
choose (UiWorkUp *self, const SwQuestion *question, const char *answer, GtkWidget **record)
{
  SwQuestionForm *form = form_of (self, question, record);
  const SwChoice *choice = answer != NULL ? sw_question_choice (question, answer) : NULL;

  ck_assert_ptr_nonnull (form);
  ck_assert (answer == NULL || choice != NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (sw_question_form_get_choice (form, question->code)),
                              choice != NULL ? (guint) (choice - question->choices) + 1 : 0);
}

void
ui_work_up_choose (UiWorkUp *self, const char *question, const char *answer)
{
  GtkWidget *record;

  choose (self, sw_question (question), answer, &record);
}

static void
type_extra (UiWorkUp *self, const SwQuestion *question, const char *extra)
{
  GtkWidget *record, *field = sw_question_form_get_extra (form_of (self, question, &record), question->code);

  if (question->extra == SW_EXTRA_DATE)
    sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (field), extra != NULL ? extra : "");
  else if (field != NULL)
    gtk_editable_set_text (GTK_EDITABLE (field), extra != NULL ? extra : "");
}

void
ui_work_up_answer (UiWorkUp *self, const char *question, const char *answer, const char *extra)
{
  Answering answering = { self, sw_question (question), answer, SW_UNKNOWN };
  GtkWidget *record;

  choose (self, answering.question, answer, &record);
  type_extra (self, answering.question, extra);
  if (answering.question->extra == SW_EXTRA_DATE && extra != NULL)
    ck_assert (sw_day_parse (extra, &answering.value, NULL));
  ui_click (record);
  ui_wait (is_answered, &answering, question);
}

/* --- readings, consent --- */

static guint
count_current (UiWorkUp *self, SwFactKind kind)
{
  const SwDossier *dossier = ui_work_up_context (self)->dossier;
  guint n = 0;

  for (guint i = 0; sw_facts_next (&dossier->facts, kind, &i) != NULL;)
    n++;
  return n;
}

typedef struct
{
  UiWorkUp *self;
  SwFactKind kind;
  guint n;
} Counting;

static gboolean
has_count (gpointer data)
{
  Counting *counting = data;

  return count_current (counting->self, counting->kind) == counting->n;
}

static void
wait_for_count (UiWorkUp *self, SwFactKind kind, guint n)
{
  Counting counting = { self, kind, n };

  ui_wait (has_count, &counting, sw_fact_type (kind)->table);
}

void
ui_work_up_measure (UiWorkUp *self, const char *length, const char *width, const char *height)
{
  SwWorkUpTumours *tumours = SW_WORKUP_TUMOURS (sw_workup_page_get_section (self->page, "tumours"));
  SwWorkUpReadings *readings = sw_workup_tumours_get_readings (tumours, self->practice->tumour);
  const char *const axes[] = { length, width, height };
  guint before = count_current (self, SW_FACT_READING);

  sw_workup_page_show_section (self->page, "tumours");
  for (int i = 0; i < 3; i++)
    {
      SwQuantityEntry *cell = sw_workup_readings_get_cell (readings, i);

      sw_quantity_entry_set_text (cell, axes[i]);
      g_signal_emit_by_name (ui_find_type (GTK_WIDGET (cell), GTK_TYPE_ENTRY), "activate");
    }
  wait_for_count (self, SW_FACT_READING, before + 1);
}

void
ui_work_up_consent (UiWorkUp *self)
{
  SwWorkUpConsent *consent = SW_WORKUP_CONSENT (sw_workup_page_get_section (self->page, "consent"));
  const SwConsentFields *fields = sw_workup_consent_get_fields (consent);

  gtk_editable_set_text (GTK_EDITABLE (fields->signer), "Vera Aldane");
  gtk_editable_set_text (GTK_EDITABLE (fields->sheet_version), "1");
  for (guint i = 0; i < G_N_ELEMENTS (fields->points); i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->points[i]), TRUE);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->off_label), TRUE);
  ui_click (fields->record);
  wait_for_count (self, SW_FACT_CONSENT, 1);
}

void
ui_work_up_make_good (UiWorkUp *self)
{
  static const struct { const char *question, *answer, *extra; } good[] = {
    { "sample", "cytology", "2026-05-10" }, { "grade", "cytology-low", NULL }, { "resectable", "no", NULL },
    { "reachable", "yes", NULL }, { "surface", "unbroken", NULL }, { "surgical-bed", "no", NULL },
    { "function-site", "no", NULL }, { "node", "sampled-negative", NULL }, { "distant", "no", NULL },
    { "stage", "1", "2026-05-10" }, { "stage-edition", "who-1980", NULL }, { "mediator-signs", "none", NULL },
    { "breeding", "none", NULL }, { "diabetes", "no", NULL }, { "hyperadrenocorticism", "no", NULL },
    { "gastric-ulcer", "no", NULL }, { "corneal-ulcer", "no", NULL }, { "infection", "no", NULL },
    { "heart-disease", "no", NULL }, { "kidney-disease", "no", NULL }, { "liver-disease", "no", NULL },
    { "medicine-history", "complete", NULL }, { "live-vaccine", "none", NULL },
  };

  ui_work_up_open_course (self, "tigilanol-eu");
  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    ui_work_up_answer (self, good[i].question, good[i].answer, good[i].extra);
  ui_work_up_measure (self, "20.0", "18.0", "9.0");
  ui_work_up_consent (self);
}

/* --- medicines --- */

static SwWorkUpMedicines *
medicines_of (UiWorkUp *self)
{
  return SW_WORKUP_MEDICINES (sw_workup_page_get_section (self->page, "medicines"));
}

static void
select_substance (const SwMedicineFields *fields, const char *substance)
{
  GListModel *model = gtk_drop_down_get_model (GTK_DROP_DOWN (fields->known));

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (model, i);

      if (g_str_equal (gtk_string_object_get_string (item), sw_substance_name (substance)))
        {
          gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->known), i);
          return;
        }
    }
  select_words (fields->known, "another, typed below");
  ck_assert (gtk_widget_get_visible (fields->other));
  gtk_editable_set_text (GTK_EDITABLE (fields->other), substance);
}

static void
type_day (GtkWidget *field, gint64 offset)
{
  g_autofree char *day = offset != SW_NO_DAY ? sw_day_format (ui_work_up_today () + offset) : g_strdup ("");

  sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (field), day);
}

static void
fill_pack (const SwMedicineFields *fields, const UiPack *pack)
{
  select_substance (fields, pack->substance);
  type_day (fields->first_day, pack->first);
  type_day (fields->last_day, pack->last);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->goes_on), pack->last == SW_NO_DAY);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->form), pack->form);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->single), pack->single == SW_UNKNOWN ? 0 : pack->single == 1 ? 1 : 2);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->xylitol_free), pack->xylitol_free);
  if (pack->dose != NULL)
    sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (fields->dose), pack->dose);
  if (pack->per_day != NULL)
    sw_quantity_entry_set_text (SW_QUANTITY_ENTRY (fields->per_day), pack->per_day);
}

static gboolean
dialog_is_gone (gpointer medicines)
{
  return sw_workup_medicines_get_dialog (medicines) == NULL;
}

void
ui_work_up_take (UiWorkUp *self, const UiPack *pack)
{
  SwWorkUpMedicines *medicines = medicines_of (self);
  guint before = count_current (self, SW_FACT_MEDICINE_TAKEN);
  const SwMedicineFields *fields;

  ui_click (sw_workup_medicines_get_add (medicines));
  fields = sw_medicine_dialog_fields (sw_workup_medicines_get_dialog (medicines));
  fill_pack (fields, pack);
  ui_click (fields->save);
  ui_wait (dialog_is_gone, medicines, "the medicine's dialog to close");
  wait_for_count (self, SW_FACT_MEDICINE_TAKEN, before + 1);
}

void
ui_work_up_take_nothing (UiWorkUp *self)
{
  GtkWidget *button;

  while ((button = sw_workup_medicines_get_button (medicines_of (self), 0, "take-back")) != NULL)
    {
      guint before = count_current (self, SW_FACT_MEDICINE_TAKEN);

      ui_click (button);
      wait_for_count (self, SW_FACT_MEDICINE_TAKEN, before - 1);
    }
}

/* --- what is shown --- */

static gboolean
has_label (GtkWidget *widget, const char *words)
{
  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), words))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (has_label (child, words))
      return TRUE;
  return FALSE;
}

GtkWidget *
ui_work_up_row (UiWorkUp *self, SwFindingCode code, const char *about)
{
  SwWorkUpOpen *open = SW_WORKUP_OPEN (sw_workup_page_get_section (self->page, "open"));
  g_autoptr (GPtrArray) rows = sw_workup_open_get_rows (open);
  g_autofree char *sentence = NULL;
  GtkWidget *worst = NULL;
  int severity = -1;

  for (guint i = 0; i < rows->len; i++)
    {
      const SwFinding *finding = sw_decision_row_get_finding (rows->pdata[i]);

      if ((code != SW_N_FINDINGS && finding->code != code) || (int) finding->severity <= severity
          || (about != NULL && (finding->about == NULL || !g_str_has_prefix (finding->about, about))))
        continue;
      worst = rows->pdata[i];
      severity = (int) finding->severity;
    }
  if (worst == NULL)
    return NULL;
  sentence = sw_finding_sentence (sw_decision_row_get_finding (SW_DECISION_ROW (worst)));
  ck_assert_msg (has_label (worst, sentence), "not in its row: %s", sentence);
  return worst;
}

int
ui_work_up_severity (UiWorkUp *self, SwFindingCode code, const char *about)
{
  GtkWidget *row = ui_work_up_row (self, code, about);

  return row != NULL ? (int) sw_decision_row_get_finding (SW_DECISION_ROW (row))->severity : SW_N_SEVERITIES;
}

guint
ui_work_up_blocks (UiWorkUp *self)
{
  g_autoptr (SwWorkUp) work_up = sw_work_up_new (ui_work_up_context (self));
  SwWorkUpOpen *open = SW_WORKUP_OPEN (sw_workup_page_get_section (self->page, "open"));
  g_autoptr (GPtrArray) rows = sw_workup_open_get_rows (open);
  guint n = 0;

  for (guint i = 0; i < rows->len; i++)
    n += sw_decision_row_get_finding (rows->pdata[i])->severity >= SW_NOT_KNOWN;
  ck_assert_uint_le (n, work_up->open->len);
  return work_up->open->len;
}

/* --- dialogs of the patient's heading --- */

static GtkWidget *
find_named (GtkWidget *root, const char *name)
{
  g_autofree char *own = ui_name (root);

  if (!GTK_IS_LABEL (root) && g_strcmp0 (own, name) == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_named (child, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

void
ui_dialog_choose (GtkWidget *dialog, const char *name, const char *choice)
{
  GtkWidget *field = find_named (dialog, name);

  ck_assert_msg (field != NULL, "no field is called %s", name);
  select_words (gtk_widget_get_ancestor (field, GTK_TYPE_DROP_DOWN), choice);
}

void
ui_dialog_type (GtkWidget *dialog, const char *name, const char *text)
{
  GtkWidget *field = find_named (dialog, name);

  ck_assert_msg (field != NULL, "no field is called %s", name);
  gtk_editable_set_text (GTK_EDITABLE (field), text);
}

static gboolean
no_dialog (gpointer self)
{
  return ui_dialog (((UiWorkUp *) self)->window) == NULL;
}

void
ui_dialog_press (UiWorkUp *self, const char *button)
{
  ui_click (ui_find_button (ui_dialog (self->window), button));
  ui_wait (no_dialog, self, "the dialog to close");
  ui_settle ();
}
