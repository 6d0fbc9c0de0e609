/* sw-today-section.c: the questions of the treatment day
 *
 * Rows come from the vocabulary of questions, so a new question needs no line here. All that was answered goes to the
 * record as one act.
 * In a group of boxes one tick says that the group was asked: what is not ticked in it is recorded as "no", which
 * blocks the needle.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-today-section-private.h"

#include "sw-answer-field-private.h"
#include "sw-form.h"

#include <glib/gi18n-lib.h>

#define LABEL_WIDTH 18 /* characters of a question beside its field */

struct _SwTodaySection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *columns; /* two forms */
  GtkWidget *state;
  GtkWidget *record;
  SwFindingView *answer;

  GPtrArray *fields; /* SwAnswerField, borrowed */
  char *subject;     /* which tumours the fields are for */
};

G_DEFINE_FINAL_TYPE (SwTodaySection, sw_today_section, SW_TYPE_TREATMENT_SECTION)

static const char *
heading_of (SwAnswerField *field)
{
  return sw_answer_field_get_question (field)->heading;
}

/* Whether any box of the field's group is ticked. */
static gboolean
group_is_asked (SwTodaySection *self, SwAnswerField *field)
{
  for (guint i = 0; i < self->fields->len; i++)
    if (g_str_equal (heading_of (self->fields->pdata[i]), heading_of (field))
        && sw_answer_field_is_ticked (self->fields->pdata[i]))
      return TRUE;
  return FALSE;
}

static gboolean
is_edited (SwTodaySection *self, SwAnswerField *field)
{
  return sw_answer_field_is_edited (field, group_is_asked (self, field));
}

static const SwAnswer *
answer_on_record (const SwPageContext *context, SwAnswerField *field)
{
  SwDay today = sw_treatment_case (context).now.day;
  const SwAnswer *answer = sw_dossier_answer (context->dossier, context->course, sw_answer_field_get_tumour (field),
                                              sw_answer_field_get_question (field)->code, today);

  return answer != NULL && answer->day == today ? answer : NULL;
}

static void
show_state (SwTodaySection *self)
{
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));
  guint kept = 0, edited = 0;
  g_autofree char *words = NULL;

  for (guint i = 0; context != NULL && i < self->fields->len; i++)
    {
      kept += answer_on_record (context, self->fields->pdata[i]) != NULL;
      edited += is_edited (self, self->fields->pdata[i]);
    }
  if (edited > 0)
    words = g_strdup_printf (ngettext ("%u answer not recorded", "%u answers not recorded", edited), edited);
  else
    words = g_strdup_printf (_("%u of %u answers on record"), kept, self->fields->len);
  gtk_label_set_text (GTK_LABEL (self->state), words);
  if (edited > 0)
    gtk_widget_add_css_class (self->state, "not-recorded");
  else
    gtk_widget_remove_css_class (self->state, "not-recorded");
}

static void
changed_cb (SwAnswerField *field, SwTodaySection *self)
{
  show_state (self);
}

/* --- recording --- */

static SwAnswer *
make_answer (SwTodaySection *self, const SwPageContext *context, SwAnswerField *field)
{
  const SwAnswer *old = answer_on_record (context, field);
  SwAnswer *answer = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_ANSWER, SwAnswer);
  SwMoment now = sw_page_context_now (context);

  if (old == NULL)
    {
      answer->course = context->course;
      answer->tumour = sw_answer_field_get_tumour (field);
      answer->question = g_strdup (sw_answer_field_get_question (field)->code);
      answer->day = now.day;
    }
  answer->minute = now.minute;
  g_free (answer->answer);
  g_free (answer->note);
  answer->answer = g_strdup (sw_answer_field_get (field, TRUE));
  answer->note = sw_answer_field_dup_note (field);

  return answer;
}

/* Restraint has a reason: temperament or site (domain 6). */
static SwAnswerField *
field_without_reason (SwTodaySection *self)
{
  for (guint i = 0; i < self->fields->len; i++)
    {
      SwAnswerField *field = self->fields->pdata[i];
      const char *answer = sw_answer_field_get (field, FALSE);
      g_autofree char *note = sw_answer_field_dup_note (field);

      if (g_str_equal (sw_answer_field_get_question (field)->code, "restraint-today") && answer != NULL
          && !g_str_equal (answer, "none") && note == NULL)
        return field;
    }
  return NULL;
}

static void
replied_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  SwTodaySection *self = SW_TODAY_SECTION (owner);
  const SwPageContext *context = sw_treatment_section_context (SW_TREATMENT_SECTION (self));

  if (reply == NULL || !reply->done)
    gtk_label_set_text (GTK_LABEL (self->state), _("not saved: press the button again"));
  else if (context != NULL)
    show_state (self);
}

static void
record_cb (GtkButton *button, SwTodaySection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  const SwPageContext *context = sw_treatment_section_context (section);
  SwAnswerField *reasonless = field_without_reason (self);
  SwRequest *request;

  if (reasonless != NULL)
    {
      sw_finding_view_set_sentence (self->answer, SW_NOT_KNOWN,
                                    _ ("Restraint has a reason: write the temperament or the site."), NULL);
      gtk_widget_grab_focus (GTK_WIDGET (reasonless));
      return;
    }
  request = sw_treatment_section_request (section, SW_ACT_ASK_TODAY);
  for (guint i = 0; i < self->fields->len; i++)
    if (is_edited (self, self->fields->pdata[i]))
      sw_request_add (request, make_answer (self, context, self->fields->pdata[i]));
  if (request->facts->len == 0)
    {
      sw_request_free (request);
      sw_finding_view_set_sentence (self->answer, SW_NOTE, _("Nothing was changed: choose an answer first."), NULL);
      return;
    }
  sw_treatment_section_correct (section, GTK_WIDGET (self), request, self->answer, replied_cb, NULL);
}

/* --- fields --- */

static void
clear_fields (SwTodaySection *self)
{
  GtkWidget *child;

  g_ptr_array_set_size (self->fields, 0);
  while ((child = gtk_widget_get_first_child (self->columns)) != NULL)
    gtk_box_remove (GTK_BOX (self->columns), child);
}

static void
wrap_label (GtkWidget *label)
{
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), LABEL_WIDTH);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LABEL_WIDTH);
}

static void
add_field (SwTodaySection *self, GtkWidget *form, const SwQuestion *question, gint64 tumour, const char *of)
{
  GtkWidget *field = sw_answer_field_new (question, tumour, of);
  g_autofree char *label
      = of != NULL ? g_strdup_printf (_ ("%s, %s"), _ (question->name), of) : g_strdup (_ (question->name));

  g_signal_connect (field, "changed", G_CALLBACK (changed_cb), self);
  g_ptr_array_add (self->fields, field);
  if (sw_answer_field_is_tick (SW_ANSWER_FIELD (field)))
    sw_form_add_wide (GTK_GRID (form), field);
  else
    wrap_label (sw_form_add (GTK_GRID (form), label, field));
}

/* Groups of boxes stand on the right, what is chosen on the left. */
static gboolean
is_of_ticks (const char *heading)
{
  guint n;
  const SwQuestion *questions = sw_questions (&n);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (questions[i].heading, heading))
      return g_str_equal (questions[i].choices[0].code, "yes");
  return FALSE;
}

static void
make_fields (SwTodaySection *self, const SwPageContext *context, GArray *tumours)
{
  GtkWidget *forms[2] = { sw_form_new (), sw_form_new () };
  const SwQuestion *questions;
  const char *heading = NULL;
  guint n;

  clear_fields (self);
  questions = sw_questions (&n);
  for (guint i = 0; i < n; i++)
    {
      GtkWidget *form;

      if (questions[i].at != SW_ASKED_ON_TREATMENT_DAY)
        continue;
      form = forms[is_of_ticks (questions[i].heading)];
      if (g_strcmp0 (heading, questions[i].heading) != 0)
        gtk_widget_add_css_class (sw_form_add_heading (GTK_GRID (form), _(questions[i].heading)), "subheading");
      heading = questions[i].heading;
      if (questions[i].of == SW_ASKED_OF_DOG)
        add_field (self, form, &questions[i], 0, NULL);
      for (guint t = 0; questions[i].of == SW_ASKED_OF_TUMOUR && t < tumours->len; t++)
        {
          gint64 tumour = g_array_index (tumours, gint64, t);
          const SwTumourDetails *details = sw_dossier_tumour (context->dossier, tumour);
          g_autofree char *letter = sw_tumour_letter (details != NULL ? details->letter : t);

          add_field (self, form, &questions[i], tumour, letter);
        }
    }
  for (int i = 0; i < 2; i++)
    {
      gtk_widget_set_hexpand (forms[i], i == 0);
      gtk_widget_set_valign (forms[i], GTK_ALIGN_START);
      gtk_box_append (GTK_BOX (self->columns), forms[i]);
    }
}

static char *
subject_of (const SwPageContext *context, GArray *tumours)
{
  GString *subject = g_string_new (NULL);

  g_string_append_printf (subject, "%" G_GINT64_FORMAT, context->course);
  for (guint i = 0; i < tumours->len; i++)
    g_string_append_printf (subject, " %" G_GINT64_FORMAT, g_array_index (tumours, gint64, i));
  return g_string_free (subject, FALSE);
}

static void
sw_today_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwTodaySection *self = SW_TODAY_SECTION (section);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  g_autofree char *subject = subject_of (context, tumours);
  gboolean anew = g_strcmp0 (subject, self->subject) != 0;

  if (anew)
    {
      make_fields (self, context, tumours);
      g_free (self->subject);
      self->subject = g_steal_pointer (&subject);
      sw_finding_view_clear (self->answer);
    }
  for (guint i = 0; i < self->fields->len; i++)
    {
      SwAnswerField *field = self->fields->pdata[i];
      const SwAnswer *answer = answer_on_record (context, field);

      /* What is chosen and not recorded stays, unless the record now says the same. */
      if (anew || !sw_answer_field_is_edited (field, FALSE)
          || (answer != NULL && g_strcmp0 (answer->answer, sw_answer_field_get (field, TRUE)) == 0))
        sw_answer_field_set (field, answer);
    }
  show_state (self);
}

static gboolean
sw_today_section_has_unsaved (SwTreatmentSection *section)
{
  SwTodaySection *self = SW_TODAY_SECTION (section);

  for (guint i = 0; i < self->fields->len; i++)
    if (is_edited (self, self->fields->pdata[i]))
      return TRUE;
  return FALSE;
}

static GtkWidget *
sw_today_section_cure_of (SwTreatmentSection *section, const SwFinding *finding)
{
  SwTodaySection *self = SW_TODAY_SECTION (section);

  for (guint i = 0; finding->about != NULL && i < self->fields->len; i++)
    {
      SwAnswerField *field = self->fields->pdata[i];

      if (g_str_equal (sw_answer_field_get_question (field)->code, finding->about)
          && sw_answer_field_get_tumour (field) == finding->tumour)
        return is_edited (self, field) ? self->record : GTK_WIDGET (field);
    }
  return NULL;
}

static void
sw_today_section_finalize (GObject *object)
{
  SwTodaySection *self = SW_TODAY_SECTION (object);

  g_ptr_array_unref (self->fields);
  g_free (self->subject);
  G_OBJECT_CLASS (sw_today_section_parent_class)->finalize (object);
}

static void
sw_today_section_class_init (SwTodaySectionClass *class)
{
  SwTreatmentSectionClass *section_class = SW_TREATMENT_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_today_section_finalize;
  section_class->update = sw_today_section_update;
  section_class->has_unsaved = sw_today_section_has_unsaved;
  section_class->cure_of = sw_today_section_cure_of;
}

static void
sw_today_section_init (SwTodaySection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->fields = g_ptr_array_new ();
  self->columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  self->state = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->state, "quiet");
  self->record = sw_button_new (_("Record Today's _Answers"));
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_widget_set_halign (line, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (line), self->state);
  gtk_box_append (GTK_BOX (line), self->record);
  sw_treatment_section_append (section, self->columns);
  sw_treatment_section_append (section, line);
  sw_treatment_section_append (section, GTK_WIDGET (self->answer));
  g_signal_connect (self->record, "clicked", G_CALLBACK (record_cb), self);
}
