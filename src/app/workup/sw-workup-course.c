/* sw-workup-course.c: the course this work-up is for
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-course.h"

#include "sw-course.h"
#include "sw-form.h"
#include "sw-region.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  gint64 tumour;
  GtkWidget *check;
} Choice;

struct _SwWorkUpCourse
{
  SwWorkUpSection parent_instance;

  GtkWidget *words;   /* what the course is made with */
  GtkWidget *form;    /* while a course can be opened */
  GtkWidget *unadopted;
  GtkWidget *protocol;
  GtkWidget *follows;
  GtkWidget *purpose;
  GtkWidget *tumours_heading;
  GtkBox *tumours_box;
  GtkWidget *register_tumour; /* while there is none */
  GtkWidget *open;
  GtkWidget *change; /* the tumours of the open course */

  GArray *protocols; /* gint64: document rows, as in the drop-down */
  GArray *earlier;   /* gint64: courses, as in the drop-down */
  GArray *tumours;   /* Choice */
};

G_DEFINE_FINAL_TYPE (SwWorkUpCourse, sw_workup_course, SW_TYPE_WORKUP_SECTION)

/* One treatment is prepared at a time. */
static gboolean
may_open (const SwDossier *dossier)
{
  const SwCourse *last = sw_dossier_last_course (dossier);

  return last == NULL || sw_dossier_injection (dossier, last->fact.id) != NULL
         || sw_facts_of_course (&dossier->facts, SW_FACT_COURSE_END, last->fact.id) != NULL;
}

/* --- acts --- */

static void
opened_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_editable_set_text (GTK_EDITABLE (SW_WORKUP_COURSE (data)->purpose), "");
}

static void
refuse (SwWorkUpCourse *self, const char *sentence, GtkWidget *field)
{
  sw_finding_view_set_sentence (sw_workup_section_get_messages (SW_WORKUP_SECTION (self)), SW_NOT_KNOWN, sentence, NULL);
  gtk_widget_grab_focus (field);
}

/* (transfer full) */
static GArray *
chosen_tumours (SwWorkUpCourse *self)
{
  GArray *chosen = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < self->tumours->len; i++)
    {
      const Choice *choice = &g_array_index (self->tumours, Choice, i);

      if (gtk_check_button_get_active (GTK_CHECK_BUTTON (choice->check)))
        g_array_append_val (chosen, choice->tumour);
    }
  return chosen;
}

static void
open_cb (SwWorkUpCourse *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  const SwPageContext *context = sw_workup_section_get_context (section);
  g_autoptr (GArray) tumours = chosen_tumours (self);
  g_autofree char *purpose = sw_field_dup_text (self->purpose);
  int protocol = sw_choice_get (self->protocol, TRUE), follows = sw_choice_get (self->follows, TRUE);
  gint64 before = follows >= 0 ? g_array_index (self->earlier, gint64, follows) : 0;

  if (protocol < 0)
    refuse (self, _("Choose the protocol: its figures decide everything that follows."), self->protocol);
  else if (self->tumours->len > 0 && tumours->len == 0)
    refuse (self, _("Tick the tumours that are treated in this course."), g_array_index (self->tumours, Choice, 0).check);
  else
    sw_workup_section_perform (section,
                               sw_request_open_course (context->person, context->patient,
                                                       g_array_index (self->protocols, gint64, protocol),
                                                       (const gint64 *) (gpointer) tumours->data, tumours->len, before, purpose),
                               opened_cb, self);
}

static gboolean
is_treated (const SwDossier *dossier, gint64 course, gint64 tumour)
{
  g_autoptr (GArray) treated = sw_dossier_course_tumours (dossier, course);

  for (guint i = 0; i < treated->len; i++)
    if (g_array_index (treated, gint64, i) == tumour)
      return TRUE;
  return FALSE;
}

/* A row for each tumour whose tick is other than the record's. */
static void
change_cb (SwWorkUpCourse *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  const SwPageContext *context = sw_workup_section_get_context (section);
  g_autoptr (SwRequest) request = sw_workup_section_request (section, SW_ACT_OPEN_COURSE);

  for (guint i = 0; i < self->tumours->len; i++)
    {
      const Choice *choice = &g_array_index (self->tumours, Choice, i);
      gboolean treat = gtk_check_button_get_active (GTK_CHECK_BUTTON (choice->check));
      SwCourseTumour *row;

      if (treat == is_treated (context->dossier, context->course, choice->tumour))
        continue;
      row = sw_new (SW_FACT_COURSE_TUMOUR, SwCourseTumour);
      row->course = context->course;
      row->tumour = choice->tumour;
      row->treat = treat;
      sw_request_add_next (request, context->dossier, row);
    }
  if (request->facts->len > 0)
    sw_workup_section_perform (section, g_steal_pointer (&request), NULL, NULL);
}

static gboolean
tumours_edited (SwWorkUpCourse *self, const SwPageContext *context)
{
  for (guint i = 0; i < self->tumours->len; i++)
    {
      const Choice *choice = &g_array_index (self->tumours, Choice, i);

      if (gtk_check_button_get_active (GTK_CHECK_BUTTON (choice->check))
          != is_treated (context->dossier, context->course, choice->tumour))
        return TRUE;
    }
  return FALSE;
}

static void
ticked_cb (SwWorkUpCourse *self)
{
  const SwPageContext *context = sw_workup_section_get_context (SW_WORKUP_SECTION (self));
  gboolean edited = context != NULL && gtk_widget_get_visible (self->change) && tumours_edited (self, context);

  sw_workup_section_set_status (SW_WORKUP_SECTION (self), edited ? _("The change of tumours is not recorded yet.") : NULL);
}

/* --- what is shown --- */

static char *
words_of (const SwWorkUp *work_up)
{
  const SwDossier *dossier = work_up->context->dossier;
  const SwProtocol *protocol = sw_case_protocol (&work_up->c);
  const SwCourseDetails *details = sw_case_details (&work_up->c);
  g_autofree char *number = NULL, *follows = NULL;
  GString *text = g_string_new (NULL);

  if (protocol == NULL)
    return g_string_free (text, FALSE);
  number = sw_course_number (dossier, work_up->context->course);
  g_string_append_printf (text, _("Course %s, made with “%s”, revision %s (%s)."), number, protocol->head.title,
                          protocol->head.revision, protocol->head.id);
  if (details->follows != 0)
    {
      follows = sw_course_number (dossier, details->follows);
      g_string_append_printf (text, _(" It follows course %s."), follows);
    }
  if (details->purpose != NULL)
    g_string_append_printf (text, _(" Purpose: %s."), details->purpose);
  return g_string_free (text, FALSE);
}

static void
fill_protocols (SwWorkUpCourse *self, const SwWorkUp *work_up)
{
  const SwFacts *facts = &work_up->c.practice->facts;
  g_autoptr (GtkStringList) names = gtk_string_list_new ((const char *const[]){ _("choose…"), NULL });
  gint64 chosen = 0;
  int selected = sw_choice_get (self->protocol, TRUE);
  const SwDocument *document;

  if (selected >= 0 && (guint) selected < self->protocols->len)
    chosen = g_array_index (self->protocols, gint64, selected);
  selected = -1;
  g_array_set_size (self->protocols, 0);
  for (guint i = 0; (document = sw_facts_next (facts, SW_FACT_DOCUMENT, &i)) != NULL;)
    {
      const SwProtocol *protocol = sw_books_protocol (work_up->c.books, document->fact.id);

      if (protocol == NULL
          || sw_practice_adopted (work_up->c.practice, SW_DOCUMENT_PROTOCOL, document->doc_id) != document)
        continue;
      selected = document->fact.id == chosen ? (int) self->protocols->len : selected;
      g_array_append_val (self->protocols, document->fact.id);
      gtk_string_list_append (names, protocol->head.title);
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->protocol), G_LIST_MODEL (names));
  sw_choice_set (self->protocol, TRUE, selected >= 0 ? selected : self->protocols->len == 1 ? 0 : -1);
}

static void
fill_earlier (SwWorkUpCourse *self, const SwDossier *dossier)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new ((const char *const[]){ _("none: a first injection"), NULL });
  int selected = sw_choice_get (self->follows, TRUE);
  guint before = self->earlier->len;
  const SwCourse *course;

  g_array_set_size (self->earlier, 0);
  for (guint i = 0; (course = sw_facts_next (&dossier->facts, SW_FACT_COURSE, &i)) != NULL;)
    {
      g_autofree char *number = sw_course_number (dossier, course->fact.id);

      if (sw_dossier_injection (dossier, course->fact.id) == NULL)
        continue;
      g_array_append_val (self->earlier, course->fact.id);
      gtk_string_list_append (names, number);
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->follows), G_LIST_MODEL (names));
  sw_choice_set (self->follows, TRUE, before == self->earlier->len ? selected : -1);
}

static char *
tumour_words (const SwTumourDetails *tumour)
{
  g_autofree char *letter = sw_tumour_letter (tumour->letter);

  return g_strdup_printf (_("tumour %s: %s, %s, %s"), letter, sw_side_name (tumour->side), sw_region_name (tumour->region),
                          sw_depth_name (tumour->depth));
}

static GtkWidget *
find_check (SwWorkUpCourse *self, gint64 tumour)
{
  for (guint i = 0; i < self->tumours->len; i++)
    if (g_array_index (self->tumours, Choice, i).tumour == tumour)
      return g_array_index (self->tumours, Choice, i).check;
  return NULL;
}

static GtkWidget *
check_new (SwWorkUpCourse *self, const SwTumourDetails *tumour)
{
  g_autofree char *words = tumour_words (tumour);
  Choice choice = { tumour->tumour, sw_check_new (words) };

  gtk_box_append (self->tumours_box, choice.check);
  g_array_append_val (self->tumours, choice);
  g_signal_connect_object (choice.check, "toggled", G_CALLBACK (ticked_cb), self, G_CONNECT_SWAPPED);
  return choice.check;
}

/* An open course shows its own tumours; a course to be opened begins with all of the dog's. */
static void
fill_tumours (SwWorkUpCourse *self, const SwWorkUp *work_up, gboolean anew, gboolean opening)
{
  const SwDossier *dossier = work_up->context->dossier;
  const SwTumourDetails *tumour;

  for (guint i = 0; (tumour = sw_facts_next (&dossier->facts, SW_FACT_TUMOUR_DETAILS, &i)) != NULL;)
    {
      GtkWidget *check = find_check (self, tumour->tumour);
      gboolean fresh = check == NULL;

      if (fresh)
        check = check_new (self, tumour);
      if (fresh || anew)
        gtk_check_button_set_active (GTK_CHECK_BUTTON (check),
                                     opening || is_treated (dossier, work_up->context->course, tumour->tumour));
    }
}

static void
clear_tumours (SwWorkUpCourse *self)
{
  for (guint i = 0; i < self->tumours->len; i++)
    gtk_box_remove (self->tumours_box, g_array_index (self->tumours, Choice, i).check);
  g_array_set_size (self->tumours, 0);
}

static void
sw_workup_course_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  SwWorkUpCourse *self = SW_WORKUP_COURSE (section);
  const SwDossier *dossier = work_up->context->dossier;
  g_autofree char *words = words_of (work_up);
  gboolean opening = may_open (dossier);
  gboolean changing = !opening && sw_case_protocol (&work_up->c) != NULL && sw_course_stage (&work_up->c) <= SW_STAGE_TREATMENT_DAY;

  if (changes & SW_CHANGED_PATIENT)
    clear_tumours (self);
  if (changes & SW_CHANGED_SUBJECT)
    gtk_editable_set_text (GTK_EDITABLE (self->purpose), "");
  if (changes & (SW_CHANGED_SUBJECT | SW_CHANGED_PRACTICE))
    fill_protocols (self, work_up);
  if (changes & ~SW_CHANGED_TIME)
    fill_earlier (self, dossier);
  fill_tumours (self, work_up, (changes & SW_CHANGED_SUBJECT) != 0, opening);
  gtk_label_set_text (GTK_LABEL (self->words), words);
  gtk_widget_set_visible (self->words, words[0] != '\0');
  gtk_widget_set_visible (self->form, opening && self->protocols->len > 0);
  gtk_widget_set_visible (self->unadopted, opening && self->protocols->len == 0);
  gtk_widget_set_visible (self->tumours_heading, opening || changing);
  gtk_widget_set_visible (GTK_WIDGET (self->tumours_box), opening || changing);
  gtk_widget_set_visible (self->register_tumour, opening && self->tumours->len == 0);
  gtk_widget_set_visible (self->open, opening && self->protocols->len > 0);
  gtk_widget_set_visible (self->change, changing && self->tumours->len > 1);
  ticked_cb (self);
}

static gboolean
sw_workup_course_has_unsaved (SwWorkUpSection *section)
{
  SwWorkUpCourse *self = SW_WORKUP_COURSE (section);
  g_autofree char *purpose = sw_field_dup_text (self->purpose);

  return purpose != NULL
         || (gtk_widget_get_visible (self->change) && tumours_edited (self, sw_workup_section_get_context (section)));
}

static gboolean
sw_workup_course_show_place (SwWorkUpSection *section, const SwPlace *place)
{
  SwWorkUpCourse *self = SW_WORKUP_COURSE (section);

  if (place->kind != SW_PLACE_COURSE)
    return FALSE;
  return gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}

static void
sw_workup_course_finalize (GObject *object)
{
  SwWorkUpCourse *self = SW_WORKUP_COURSE (object);

  g_array_unref (self->protocols);
  g_array_unref (self->earlier);
  g_array_unref (self->tumours);
  G_OBJECT_CLASS (sw_workup_course_parent_class)->finalize (object);
}

static void
sw_workup_course_class_init (SwWorkUpCourseClass *class)
{
  SwWorkUpSectionClass *section_class = SW_WORKUP_SECTION_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = sw_workup_course_finalize;
  section_class->update = sw_workup_course_update;
  section_class->has_unsaved = sw_workup_course_has_unsaved;
  section_class->show_place = sw_workup_course_show_place;
}

static GtkWidget *
unadopted_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *button = sw_button_new (_("Go to _Practice"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", "practice");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.page");
  gtk_box_append (GTK_BOX (box), sw_quiet_new (_("This practice has adopted no protocol yet, so no course can be opened. A vet reads "
                                                 "and adopts one on the practice page.")));
  gtk_box_append (GTK_BOX (box), button);

  return box;
}

static GtkWidget *
form_new (SwWorkUpCourse *self)
{
  const char *const none[] = { NULL };
  GtkWidget *form = sw_form_new ();

  self->protocol = sw_choice_new (_("protocol"), _("choose…"), none);
  self->follows = sw_choice_new (_("follows course"), _("none: a first injection"), none);
  self->purpose = sw_text_field_new (40);
  sw_form_add_heading (GTK_GRID (form), _("A new course"));
  sw_form_add (GTK_GRID (form), _("_protocol"), self->protocol);
  sw_form_add (GTK_GRID (form), _("_follows course"), self->follows);
  sw_form_add (GTK_GRID (form), _("p_urpose"), self->purpose);

  return form;
}

static void
sw_workup_course_init (SwWorkUpCourse *self)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  GtkBox *body = sw_workup_section_get_body (section);

  self->protocols = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->earlier = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->tumours = g_array_new (FALSE, FALSE, sizeof (Choice));
  self->words = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (self->words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (self->words), 0);
  self->form = form_new (self);
  self->unadopted = unadopted_new ();
  self->tumours_heading = sw_heading_new (_("Tumours treated in this course"));
  self->tumours_box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->register_tumour = sw_button_new (_("Register a _Tumour"));
  gtk_widget_set_halign (self->register_tumour, GTK_ALIGN_START);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->register_tumour), "patient.add-tumour");
  self->open = sw_primary_button_new (_("_Open the Course"));
  self->change = sw_primary_button_new (_("Record the C_hange"));
  gtk_box_append (body, self->words);
  gtk_box_append (body, self->unadopted);
  gtk_box_append (body, self->form);
  gtk_box_append (body, self->tumours_heading);
  gtk_box_append (body, GTK_WIDGET (self->tumours_box));
  gtk_box_append (body, self->register_tumour);
  sw_workup_section_add_button (section, self->change);
  sw_workup_section_add_button (section, self->open);
  g_signal_connect_object (self->open, "clicked", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->change, "clicked", G_CALLBACK (change_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
sw_workup_course_get_protocol (SwWorkUpCourse *self)
{
  return self->protocol;
}

GtkWidget *
sw_workup_course_get_follows (SwWorkUpCourse *self)
{
  return self->follows;
}

GtkWidget *
sw_workup_course_get_purpose (SwWorkUpCourse *self)
{
  return self->purpose;
}

GtkWidget *
sw_workup_course_get_tumour (SwWorkUpCourse *self, gint64 tumour)
{
  return find_check (self, tumour);
}

GtkWidget *
sw_workup_course_get_open (SwWorkUpCourse *self)
{
  return self->open;
}

GtkWidget *
sw_workup_course_get_change (SwWorkUpCourse *self)
{
  return self->change;
}
