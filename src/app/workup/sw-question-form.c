/* sw-question-form.c: questions with the answers given
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-question-form.h"

#include "sw-finding-view.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-workup-section.h"

#include <glib/gi18n-lib.h>

#define CHOICE_WIDTH 246

enum { COLUMN_NAME, COLUMN_CHOICE, COLUMN_EXTRA, COLUMN_STATE };

typedef struct
{
  int choice; /* -1: none */
  gint64 value;
  char *note; /* NULL: none */
} Given;

typedef struct
{
  const SwQuestion *question;
  GtkWidget *choice;
  SwQuantityEntry *date; /* or NULL */
  GtkWidget *note;       /* or NULL */
  GtkWidget *state;
  Given shown; /* what the record holds, as last shown */
  Given sent;
} Row;

struct _SwQuestionForm
{
  GtkWidget parent_instance;

  GtkGrid *grid;
  GPtrArray *rows; /* Row */
  gint64 tumour;
  char *named;
  guint updating : 1;
};

G_DEFINE_FINAL_TYPE (SwQuestionForm, sw_question_form, GTK_TYPE_WIDGET)

enum { EDITED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
row_free (gpointer data)
{
  Row *row = data;

  g_free (row->shown.note);
  g_free (row->sent.note);
  g_free (row);
}

/* What stands in the fields; FALSE: the date is no date. */
static gboolean
read_row (const Row *row, Given *given)
{
  given->choice = sw_choice_get (row->choice, TRUE);
  given->note = row->note != NULL ? sw_field_dup_text (row->note) : NULL;
  given->value = SW_UNKNOWN;
  return row->date == NULL || sw_quantity_entry_get_text (row->date)[0] == '\0'
         || sw_quantity_entry_peek (row->date, &given->value, NULL);
}

static gboolean
is_edited (const Row *row)
{
  Given given;
  gboolean readable = read_row (row, &given);
  g_autofree char *note = given.note;

  return !readable || given.choice != row->shown.choice || given.value != row->shown.value
         || g_strcmp0 (note, row->shown.note) != 0;
}

static void
set_given (Given *given, int choice, gint64 value, const char *note)
{
  g_free (given->note);
  *given = (Given){ choice, value, g_strdup (note) };
}

/* --- the state at a row's end --- */

static void
set_state (Row *row, GtkWidget *state)
{
  GtkWidget *child = gtk_widget_get_first_child (row->state);

  if (child != NULL)
    gtk_box_remove (GTK_BOX (row->state), child);
  if (state != NULL)
    gtk_box_append (GTK_BOX (row->state), state);
}

static GtkWidget *
not_recorded_label (void)
{
  GtkWidget *label = gtk_label_new (_("not recorded"));

  gtk_widget_add_css_class (label, "not-recorded");
  return label;
}

static void
show_finding (Row *row, const SwFinding *finding)
{
  g_autofree char *sentence = finding != NULL ? sw_finding_sentence (finding) : NULL;

  set_state (row, finding != NULL ? sw_severity_new (finding->severity) : NULL);
  gtk_widget_set_tooltip_text (row->state, sentence);
}

static void
edited_cb (SwQuestionForm *self)
{
  if (self->updating)
    return;
  for (guint i = 0; i < self->rows->len; i++)
    if (is_edited (self->rows->pdata[i]))
      set_state (self->rows->pdata[i], not_recorded_label ());
  g_signal_emit (self, signals[EDITED], 0);
}

/* --- building --- */

static char *
name_of (const SwQuestionForm *self, const char *text)
{
  return self->named != NULL ? g_strdup_printf ("%s, %s", self->named, text) : g_strdup (text);
}

static GtkWidget *
choice_new (SwQuestionForm *self, const SwQuestion *question)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *name = name_of (self, _(question->name));
  GtkWidget *choice;

  for (guint i = 0; i < question->n_choices; i++)
    g_ptr_array_add (names, (gpointer) _(question->choices[i].name));
  g_ptr_array_add (names, NULL);
  choice = sw_choice_new (name, _("choose…"), (const char *const *) names->pdata);
  gtk_widget_set_size_request (choice, CHOICE_WIDTH, -1);
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);

  return choice;
}

/* A date or a note, with its own short name before it. */
static GtkWidget *
extra_new (SwQuestionForm *self, Row *row)
{
  const SwQuestion *question = row->question;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *words = sw_quiet_new (_(question->extra_name));
  g_autofree char *full = g_strdup_printf ("%s: %s", _(question->name), _(question->extra_name));
  g_autofree char *name = name_of (self, full);
  GtkWidget *field;

  if (question->extra == SW_EXTRA_DATE)
    {
      field = sw_quantity_entry_new (SW_QUANTITY_DAY, name);
      row->date = SW_QUANTITY_ENTRY (field);
    }
  else
    {
      field = row->note = sw_text_field_new (14);
      gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    }
  g_signal_connect_object (field, "changed", G_CALLBACK (edited_cb), self, G_CONNECT_SWAPPED);
  gtk_label_set_wrap (GTK_LABEL (words), FALSE);
  gtk_widget_set_valign (words, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (field, GTK_ALIGN_BASELINE);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), field);

  return box;
}

static GtkWidget *
question_label (const SwQuestion *question, GtkWidget *choice)
{
  GtkWidget *label = gtk_label_new (_(question->name));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
  gtk_label_set_width_chars (GTK_LABEL (label), 30);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), choice);
  gtk_widget_add_css_class (label, "form-label");

  return label;
}

static void
attach (SwQuestionForm *self, GtkWidget *widget, int column, int line)
{
  gtk_widget_set_valign (widget, GTK_ALIGN_BASELINE);
  gtk_grid_attach (self->grid, widget, column, line, 1, 1);
}

static void
add_row (SwQuestionForm *self, const SwQuestion *question, int line)
{
  Row *row = g_new0 (Row, 1);

  row->question = question;
  row->choice = choice_new (self, question);
  row->state = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  row->shown = row->sent = (Given){ -1, SW_UNKNOWN, NULL };
  attach (self, question_label (question, row->choice), COLUMN_NAME, line);
  attach (self, row->choice, COLUMN_CHOICE, line);
  if (question->extra != SW_EXTRA_NONE)
    attach (self, extra_new (self, row), COLUMN_EXTRA, line);
  attach (self, row->state, COLUMN_STATE, line);
  g_ptr_array_add (self->rows, row);
}

static void
add_heading (SwQuestionForm *self, const char *heading, int line)
{
  GtkWidget *label = sw_heading_new (heading);

  if (line > 0)
    gtk_widget_set_margin_top (label, 12);
  gtk_grid_attach (self->grid, label, COLUMN_NAME, line, 4, 1);
}

static void
add_rows (SwQuestionForm *self, SwQuestionWanted wanted)
{
  guint n;
  const SwQuestion *questions = sw_questions (&n);
  const char *heading = NULL;
  int line = 0;

  for (guint i = 0; i < n; i++)
    {
      if (questions[i].at != SW_ASKED_AT_WORK_UP || !wanted (&questions[i]))
        continue;
      if (g_strcmp0 (heading, questions[i].heading) != 0)
        add_heading (self, _(questions[i].heading), line++);
      heading = questions[i].heading;
      add_row (self, &questions[i], line++);
    }
}

GtkWidget *
sw_question_form_new (SwQuestionWanted wanted, gint64 tumour, const char *named)
{
  SwQuestionForm *self = g_object_new (SW_TYPE_QUESTION_FORM, NULL);

  self->tumour = tumour;
  self->named = g_strdup (named);
  add_rows (self, wanted);
  return GTK_WIDGET (self);
}

static void
sw_question_form_dispose (GObject *object)
{
  SwQuestionForm *self = SW_QUESTION_FORM (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  self->updating = TRUE;
  if (child != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (sw_question_form_parent_class)->dispose (object);
}

static void
sw_question_form_finalize (GObject *object)
{
  SwQuestionForm *self = SW_QUESTION_FORM (object);

  g_ptr_array_unref (self->rows);
  g_free (self->named);
  G_OBJECT_CLASS (sw_question_form_parent_class)->finalize (object);
}

static void
sw_question_form_class_init (SwQuestionFormClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = sw_question_form_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_question_form_finalize;
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "questionform");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_question_form_init (SwQuestionForm *self)
{
  self->grid = GTK_GRID (sw_form_new ());
  self->rows = g_ptr_array_new_with_free_func (row_free);
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
}

/* --- the record --- */

static const SwAnswer *
answer_of (const SwQuestionForm *self, const SwPageContext *context, const Row *row)
{
  return sw_dossier_answer (context->dossier, 0, self->tumour, row->question->code, sw_page_context_now (context).day);
}

static void
take_answer (Row *row, const SwAnswer *answer)
{
  int choice = -1;

  for (guint i = 0; answer != NULL && i < row->question->n_choices; i++)
    if (g_str_equal (row->question->choices[i].code, answer->answer))
      choice = (int) i;
  set_given (&row->shown, choice, answer != NULL && row->date != NULL ? answer->value : SW_UNKNOWN,
             answer != NULL && row->note != NULL ? answer->note : NULL);
}

static void
show_given (Row *row)
{
  sw_choice_set (row->choice, TRUE, row->shown.choice);
  if (row->date != NULL)
    sw_quantity_entry_set_value (row->date, row->shown.value);
  if (row->note != NULL)
    gtk_editable_set_text (GTK_EDITABLE (row->note), row->shown.note != NULL ? row->shown.note : "");
}

void
sw_question_form_update (SwQuestionForm *self, const SwWorkUp *work_up, gboolean anew)
{
  self->updating = TRUE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = self->rows->pdata[i];
      gboolean keep = !anew && is_edited (row);

      take_answer (row, answer_of (self, work_up->context, row));
      if (!keep)
        show_given (row);
      if (keep && is_edited (row))
        set_state (row, not_recorded_label ());
      else
        show_finding (row, sw_work_up_of_question (work_up, row->question, self->tumour));
    }
  self->updating = FALSE;
  g_signal_emit (self, signals[EDITED], 0);
}

guint
sw_question_form_count_edited (SwQuestionForm *self)
{
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    n += is_edited (self->rows->pdata[i]);
  return n;
}

/* An answer of this day takes the place of an earlier one of the same day; an older one stays what it was then. */
static void
add_answer (SwQuestionForm *self, const SwPageContext *context, SwRequest *request, Row *row)
{
  const SwAnswer *before = answer_of (self, context, row);
  SwMoment now = sw_page_context_now (context);
  SwAnswer *answer;

  if (row->sent.choice < 0)
    {
      if (before != NULL)
        sw_request_add (request, sw_fact_withdrawal (before));
      return;
    }
  answer = sw_new (SW_FACT_ANSWER, SwAnswer);
  answer->tumour = self->tumour;
  answer->question = g_strdup (row->question->code);
  answer->answer = g_strdup (row->question->choices[row->sent.choice].code);
  answer->day = now.day;
  answer->minute = now.minute;
  answer->value = row->sent.value;
  answer->note = g_strdup (row->sent.note);
  sw_request_add_next (request, context->dossier, answer);
}

/* FALSE: the sentence stands beside the field. */
static gboolean
check_row (Row *row)
{
  gint64 value;

  if (row->date != NULL && !sw_quantity_entry_take (row->date, &value))
    {
      gtk_widget_grab_focus (GTK_WIDGET (row->date));
      return FALSE;
    }
  if (row->sent.choice >= 0 || (row->sent.value == SW_UNKNOWN && row->sent.note == NULL))
    return TRUE;
  if (row->date != NULL)
    sw_quantity_entry_set_error (row->date, _("Choose the answer too."));
  gtk_widget_grab_focus (row->choice);
  return FALSE;
}

gboolean
sw_question_form_collect (SwQuestionForm *self, const SwPageContext *context, SwRequest *request)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = self->rows->pdata[i];
      gboolean edited = is_edited (row);

      g_free (row->sent.note);
      read_row (row, &row->sent);
      if (!edited)
        continue;
      if (!check_row (row))
        return FALSE;
      add_answer (self, context, request, row);
    }
  return TRUE;
}

void
sw_question_form_settle (SwQuestionForm *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      Row *row = self->rows->pdata[i];

      set_given (&row->shown, row->sent.choice, row->sent.value, row->sent.note);
    }
  g_signal_emit (self, signals[EDITED], 0);
}

static Row *
find_row (SwQuestionForm *self, const SwQuestion *question)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (((Row *) self->rows->pdata[i])->question == question)
      return self->rows->pdata[i];
  return NULL;
}

gboolean
sw_question_form_focus (SwQuestionForm *self, const SwQuestion *question)
{
  Row *row = find_row (self, question);

  return row != NULL && gtk_widget_grab_focus (row->choice);
}

GtkWidget *
sw_question_form_get_choice (SwQuestionForm *self, const char *question)
{
  Row *row = find_row (self, sw_question (question));

  return row != NULL ? row->choice : NULL;
}

GtkWidget *
sw_question_form_get_extra (SwQuestionForm *self, const char *question)
{
  Row *row = find_row (self, sw_question (question));

  if (row == NULL)
    return NULL;
  return row->date != NULL ? GTK_WIDGET (row->date) : row->note;
}
