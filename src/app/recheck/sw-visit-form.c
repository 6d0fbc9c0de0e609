/* sw-visit-form.c: one contact after the injection
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-visit-form-private.h"

#include "sw-course-words.h"
#include "sw-course.h"
#include "sw-form.h"
#include "sw-quantity-entry.h"
#include "sw-recheck-private.h"
#include "sw-site-form-private.h"

#include <glib/gi18n-lib.h>

#define MOST_PAIN 10 /* as model takes it */

struct _SwVisitForm
{
  GtkBox parent_instance;

  /* children */
  GtkLabel *heading;
  GtkWidget *mode;
  GtkWidget *day;
  GtkWidget *time;
  GtkWidget *planned; /* first choice: by its day */
  GtkWidget *pain;    /* first choice: not scored */
  GtkWidget *cover;   /* first choice: not said */
  GtkWidget *until;
  GtkWidget *note;
  GtkBox *sites; /* SwSiteForm */
  SwFindingView *answer;
  GtkWidget *record_words;
  GtkWidget *give_up;

  SwStepPage *page;     /* borrowed: it holds this widget */
  GArray *numbers;      /* gint64, visit days as in `planned` */
  gint64 course;
  gint64 correcting;    /* the visit's row; 0: a new one */
  SwDay shown;          /* the day that the sites show */
  char *note_shown;
};

G_DEFINE_FINAL_TYPE (SwVisitForm, sw_visit_form, GTK_TYPE_BOX)

enum { SHOWN_DAY, N_SIGNALS };

static guint signals[N_SIGNALS];

#define FOR_SITES(self, site) \
  for (GtkWidget *site = gtk_widget_get_first_child (GTK_WIDGET ((self)->sites)); site != NULL; \
       site = gtk_widget_get_next_sibling (site))

static const SwFacts *
facts_of (SwVisitForm *self)
{
  return &sw_step_page_get_context (self->page)->dossier->facts;
}

static const SwVisit *
corrected (SwVisitForm *self)
{
  return sw_facts_by_id (facts_of (self), SW_FACT_VISIT, self->correcting);
}

/* --- the day --- */

/* The moment that the form speaks of: now, as long as nothing else that makes sense is typed. */
static SwMoment
moment_of (SwVisitForm *self)
{
  SwMoment moment = sw_page_context_now (sw_step_page_get_context (self->page));
  gint64 day, minute;

  if (sw_quantity_entry_peek (SW_QUANTITY_ENTRY (self->day), &day, NULL))
    moment.day = day;
  if (sw_quantity_entry_peek (SW_QUANTITY_ENTRY (self->time), &minute, NULL))
    moment.minute = (int) minute;
  return moment;
}

static void
show_sites (SwVisitForm *self, gboolean anew)
{
  SwMoment at = moment_of (self);

  FOR_SITES (self, site)
    sw_site_form_show (SW_SITE_FORM (site), self->page, at, anew);
  if (self->shown != at.day)
    {
      self->shown = at.day;
      g_signal_emit (self, signals[SHOWN_DAY], 0, at.day);
    }
}

static void
day_changed_cb (SwVisitForm *self)
{
  gint64 day;

  if (self->page != NULL && sw_quantity_entry_peek (SW_QUANTITY_ENTRY (self->day), &day, NULL))
    show_sites (self, FALSE);
}

SwDay
sw_visit_form_get_day (SwVisitForm *self)
{
  return self->shown;
}

/* --- filling --- */

static void
set_note (SwVisitForm *self, const char *note)
{
  g_free (self->note_shown);
  self->note_shown = g_strdup (note != NULL ? note : "");
  gtk_editable_set_text (GTK_EDITABLE (self->note), self->note_shown);
}

static int
place_of (SwVisitForm *self, gint64 number)
{
  for (guint i = 0; number != SW_UNKNOWN && i < self->numbers->len; i++)
    if (g_array_index (self->numbers, gint64, i) == number)
      return (int) i;
  return -1;
}

static int
choice_of (gint64 value)
{
  return value == SW_UNKNOWN ? -1 : (int) value;
}

static void
show_heading (SwVisitForm *self)
{
  gboolean correcting = self->correcting != 0;

  gtk_label_set_text (self->heading, correcting ? _("Correct a visit") : _("New visit"));
  gtk_label_set_label (GTK_LABEL (self->record_words),
                       correcting ? _("_Record the Correction") : _("_Record the Visit"));
  gtk_widget_set_visible (self->give_up, correcting);
}

static void
start_anew (SwVisitForm *self)
{
  self->correcting = 0;
  sw_choice_set (self->mode, FALSE, SW_VISIT_HERE);
  sw_choice_set (self->planned, TRUE, -1);
  sw_choice_set (self->pain, TRUE, -1);
  sw_choice_set (self->cover, TRUE, -1);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (self->until), SW_UNKNOWN);
  set_note (self, NULL);
  sw_when_set (self->day, self->time, sw_page_context_now (sw_step_page_get_context (self->page)));
  FOR_SITES (self, site)
    sw_site_form_set_wound (SW_SITE_FORM (site), NULL);
  show_sites (self, TRUE);
  show_heading (self);
}

/* Each site knows its tumour by the order of the course's tumours. */
static void
set_wounds (SwVisitForm *self, const SwVisit *visit)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  guint i = 0;

  FOR_SITES (self, site)
    {
      gint64 tumour = g_array_index (tumours, gint64, i++);

      sw_site_form_set_wound (SW_SITE_FORM (site), sw_visit_wound (facts_of (self), visit, tumour));
    }
}

void
sw_visit_form_correct (SwVisitForm *self, const SwVisit *visit)
{
  self->correcting = visit->fact.id;
  sw_choice_set (self->mode, FALSE, (int) visit->mode);
  sw_choice_set (self->planned, TRUE, place_of (self, visit->planned_day));
  sw_choice_set (self->pain, TRUE, choice_of (visit->pain));
  sw_choice_set (self->cover, TRUE, choice_of (visit->cover));
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (self->until), visit->cover_until);
  set_note (self, visit->note);
  sw_when_set (self->day, self->time, (SwMoment){ visit->day, (int) visit->minute });
  set_wounds (self, visit);
  sw_finding_view_clear (self->answer);
  show_sites (self, TRUE);
  show_heading (self);
  sw_visit_form_focus (self);
}

static char *
name_of (const SwVisitSlot *slot)
{
  return slot->number == 0 ? g_strdup (_("the first contact")) : g_strdup_printf (_("day %d"), (int) slot->number);
}

/* "the day it is", "the first contact", "day 1" ... */
static void
offer_visit_days (SwVisitForm *self)
{
  SwCase c = sw_page_context_case (sw_step_page_get_context (self->page));
  g_autoptr (GArray) slots = sw_course_visits (&c);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  int chosen = sw_choice_get (self->planned, TRUE);
  gint64 number = chosen >= 0 ? g_array_index (self->numbers, gint64, chosen) : SW_UNKNOWN;

  gtk_string_list_append (names, _("the day it is"));
  g_array_set_size (self->numbers, 0);
  for (guint i = 0; i < slots->len; i++)
    {
      const SwVisitSlot *slot = &g_array_index (slots, SwVisitSlot, i);
      g_autofree char *name = name_of (slot);

      gtk_string_list_append (names, name);
      g_array_append_val (self->numbers, slot->number);
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->planned), G_LIST_MODEL (names));
  sw_choice_set (self->planned, TRUE, place_of (self, number));
}

static void
make_sites (SwVisitForm *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (context->dossier, context->course);
  GtkWidget *site;

  while ((site = gtk_widget_get_first_child (GTK_WIDGET (self->sites))) != NULL)
    gtk_box_remove (self->sites, site);
  for (guint i = 0; i < tumours->len; i++)
    {
      gint64 tumour = g_array_index (tumours, gint64, i);
      g_autofree char *title = sw_words_tumour (context->dossier, tumour);
      g_autofree char *letter = sw_tumour_letter (sw_dossier_tumour (context->dossier, tumour)->letter);

      gtk_box_append (self->sites, sw_site_form_new (tumour, title, letter));
    }
}

void
sw_visit_form_update (SwVisitForm *self, SwStepPage *page, SwPageChanges changes)
{
  const SwPageContext *context = sw_step_page_get_context (page);
  gboolean anew = (changes & SW_CHANGED_SUBJECT) != 0 || self->course != context->course || self->page == NULL;

  self->page = page;
  self->course = context->course;
  if (anew)
    {
      sw_finding_view_clear (self->answer);
      make_sites (self);
    }
  if ((changes & ~SW_CHANGED_TIME) != 0)
    offer_visit_days (self);
  if (anew)
    start_anew (self);
  else if (self->correcting == 0)
    sw_when_offer (self->day, self->time, sw_page_context_now (context));
  show_sites (self, FALSE);
}

/* --- recording --- */

static gboolean
take_until (SwVisitForm *self, gint64 *until)
{
  if (sw_quantity_entry_take (SW_QUANTITY_ENTRY (self->until), until))
    return TRUE;
  gtk_widget_grab_focus (self->until);
  return FALSE;
}

static SwVisit *
make_visit (SwVisitForm *self, SwMoment when, gint64 until)
{
  const SwVisit *old = corrected (self);
  SwVisit *visit = old != NULL ? sw_fact_correction (old) : sw_new (SW_FACT_VISIT, SwVisit);
  int planned = sw_choice_get (self->planned, TRUE), pain = sw_choice_get (self->pain, TRUE);
  int cover = sw_choice_get (self->cover, TRUE);

  visit->course = self->course;
  visit->planned_day = planned >= 0 ? g_array_index (self->numbers, gint64, planned) : SW_UNKNOWN;
  visit->day = when.day;
  visit->minute = when.minute;
  visit->mode = sw_choice_get (self->mode, FALSE);
  visit->pain = pain >= 0 ? pain : SW_UNKNOWN;
  visit->cover = cover >= 0 ? cover : SW_UNKNOWN;
  visit->cover_until = until;
  g_free (visit->note);
  visit->note = sw_field_dup_text (self->note);

  return visit;
}

static void
recorded_cb (GtkWidget *owner, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    start_anew (SW_VISIT_FORM (owner));
}

static void
record_cb (GtkButton *button, SwVisitForm *self)
{
  const SwPageContext *context = sw_step_page_get_context (self->page);
  g_autoptr (SwRequest) request = NULL;
  gint64 until, visit;
  SwMoment when;

  if (!sw_when_take (self->day, self->time, sw_page_context_now (context), &when) || !take_until (self, &until))
    return;
  request = sw_step_page_request (self->page, SW_ACT_RECORD_RECHECK);
  visit = sw_request_add (request, make_visit (self, when, until));
  if (self->correcting != 0)
    visit = self->correcting;
  FOR_SITES (self, site)
    if (!sw_site_form_add_rows (SW_SITE_FORM (site), request, visit, when.day))
      return;
  sw_perform (GTK_WIDGET (self), context->record, g_steal_pointer (&request), self->answer, recorded_cb, NULL);
}

static void
give_up_cb (GtkButton *button, SwVisitForm *self)
{
  sw_finding_view_clear (self->answer);
  start_anew (self);
}

/* --- what is typed --- */

static gboolean
is_touched (SwVisitForm *self)
{
  return sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->day))
         || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->time))
         || sw_quantity_entry_is_edited (SW_QUANTITY_ENTRY (self->until))
         || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->note)), self->note_shown) != 0;
}

gboolean
sw_visit_form_has_unsaved (SwVisitForm *self)
{
  gboolean unsaved = self->page != NULL
                     && (self->correcting != 0 || is_touched (self) || sw_choice_get (self->pain, TRUE) >= 0
                         || sw_choice_get (self->cover, TRUE) >= 0 || sw_choice_get (self->planned, TRUE) >= 0
                         || sw_choice_get (self->mode, FALSE) != SW_VISIT_HERE);

  FOR_SITES (self, site)
    unsaved = unsaved || sw_site_form_has_unsaved (SW_SITE_FORM (site));
  return unsaved;
}

GtkWidget *
sw_visit_form_first_empty (SwVisitForm *self)
{
  GtkWidget *cell = NULL;

  FOR_SITES (self, site)
    if (cell == NULL)
      cell = sw_site_form_first_empty (SW_SITE_FORM (site));
  return cell;
}

void
sw_visit_form_focus (SwVisitForm *self)
{
  gtk_widget_grab_focus (self->mode);
}

static void
sw_visit_form_finalize (GObject *object)
{
  SwVisitForm *self = SW_VISIT_FORM (object);

  g_array_unref (self->numbers);
  g_free (self->note_shown);
  G_OBJECT_CLASS (sw_visit_form_parent_class)->finalize (object);
}

static void
sw_visit_form_class_init (SwVisitFormClass *class)
{
  G_OBJECT_CLASS (class)->finalize = sw_visit_form_finalize;
  signals[SHOWN_DAY] = g_signal_new ("shown-day", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 1, G_TYPE_INT64);
}

static GtkWidget *
pain_new (void)
{
  g_auto (GStrv) marks = g_new0 (char *, MOST_PAIN + 2);

  for (int i = 0; i <= MOST_PAIN; i++)
    marks[i] = g_strdup_printf ("%d", i);
  return sw_choice_new (_("Pain, 0 to 10"), _("not scored"), (const char *const *) marks);
}

static GtkWidget *
mode_new (void)
{
  const char *modes[SW_N_VISIT_MODES + 1] = { NULL };

  for (int i = 0; i < SW_N_VISIT_MODES; i++)
    modes[i] = sw_visit_mode_name ((SwVisitMode) i);
  return sw_choice_new (_("How the dog was seen"), NULL, modes);
}

static GtkWidget *
cover_new (void)
{
  const char *covers[SW_N_COVERS + 1] = { NULL };

  for (int i = 0; i < SW_N_COVERS; i++)
    covers[i] = sw_cover_name ((SwCover) i);
  return sw_choice_new (_("Care of the site"), _("not said"), covers);
}

static GtkWidget *
cover_line_new (SwVisitForm *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->cover = cover_new ();
  self->until = sw_quantity_entry_new (SW_QUANTITY_DAY, _("Covered until"));
  sw_quantity_entry_set_width_chars (SW_QUANTITY_ENTRY (self->until), 11);
  gtk_box_append (GTK_BOX (line), self->cover);
  gtk_box_append (GTK_BOX (line), gtk_label_new (_("until")));
  gtk_box_append (GTK_BOX (line), self->until);

  return line;
}

static GtkWidget *
contact_form_new (SwVisitForm *self)
{
  const char *const none[] = { NULL };
  GtkWidget *form = sw_form_new ();

  self->mode = mode_new ();
  self->planned = sw_choice_new (_("Visit day it stands for"), _("the day it is"), none);
  self->pain = pain_new ();
  self->note = sw_text_field_new (28);
  sw_form_add (GTK_GRID (form), _("see_n"), self->mode);
  sw_form_add (GTK_GRID (form), _("_when"),
               sw_when_new (_("Day of the visit"), _("Time of the visit"), &self->day, &self->time));
  sw_form_add (GTK_GRID (form), _("stands _for"), self->planned);
  sw_form_add (GTK_GRID (form), _("_pain"), self->pain);
  sw_form_add (GTK_GRID (form), _("_site kept"), cover_line_new (self));
  sw_form_add (GTK_GRID (form), _("n_otes"), self->note);
  g_signal_connect_swapped (self->day, "changed", G_CALLBACK (day_changed_cb), self);

  return form;
}

static GtkWidget *
buttons_new (SwVisitForm *self)
{
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *record = sw_primary_button_new (_("_Record the Visit"));

  self->record_words = gtk_button_get_child (GTK_BUTTON (record));
  self->give_up = sw_button_new (_("_Give Up the Correction"));
  g_signal_connect (record, "clicked", G_CALLBACK (record_cb), self);
  g_signal_connect (self->give_up, "clicked", G_CALLBACK (give_up_cb), self);
  gtk_box_append (GTK_BOX (buttons), record);
  gtk_box_append (GTK_BOX (buttons), self->give_up);

  return buttons;
}

static void
sw_visit_form_init (SwVisitForm *self)
{
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 30);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 9);
  self->numbers = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->shown = SW_NO_DAY;
  self->heading = GTK_LABEL (sw_heading_new (_("New visit")));
  self->sites = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 18));
  gtk_widget_set_hexpand (GTK_WIDGET (self->sites), TRUE);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (columns), contact_form_new (self));
  gtk_box_append (GTK_BOX (columns), GTK_WIDGET (self->sites));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->heading));
  gtk_box_append (GTK_BOX (self), columns);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (self), buttons_new (self));
}

GtkWidget *
sw_visit_form_new (void)
{
  return g_object_new (SW_TYPE_VISIT_FORM, NULL);
}
