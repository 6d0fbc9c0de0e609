/* sw-workup-open.c: what still stands between the work-up and the lead-in
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-workup-open.h"

#include "sw-course.h"
#include "sw-decision-row.h"
#include "sw-form.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>

typedef enum { GROUP_OPEN, GROUP_DECIDED, GROUP_MET, N_GROUPS } Group;

struct _SwWorkUpOpen
{
  SwWorkUpSection parent_instance;

  GtkWidget *summary;
  GtkWidget *decided; /* a heading */
  GtkBox *groups[N_GROUPS];
  GtkWidget *met; /* the expander round the last group */
  GtkWidget *lead_in;
  GtkWidget *course; /* while there is nothing to lead in */
  GHashTable *rows; /* "code:about@tumour" -> SwDecisionRow, owned */
};

G_DEFINE_FINAL_TYPE (SwWorkUpOpen, sw_workup_open, SW_TYPE_WORKUP_SECTION)

static char *
key_of (const SwFinding *finding)
{
  return g_strdup_printf ("%d:%s@%" G_GINT64_FORMAT, finding->code, finding->about != NULL ? finding->about : "", finding->tumour);
}

static gboolean
is_open (const SwWorkUp *work_up, const SwFinding *finding)
{
  for (guint i = 0; i < work_up->open->len; i++)
    {
      const SwFinding *open = work_up->open->pdata[i];

      if (open->code == finding->code && open->tumour == finding->tumour && g_strcmp0 (open->about, finding->about) == 0)
        return TRUE;
    }
  return FALSE;
}

static Group
group_of (const SwWorkUp *work_up, const SwFinding *finding)
{
  if (finding->severity == SW_MEETS)
    return GROUP_MET;
  return is_open (work_up, finding) ? GROUP_OPEN : GROUP_DECIDED;
}

/* --- acts --- */

static void
go_cb (SwWorkUpOpen *self, SwDecisionRow *row)
{
  SwCase c = sw_page_context_case (sw_workup_section_get_context (SW_WORKUP_SECTION (self)));
  SwPlace place = sw_place_of_finding (&c, sw_decision_row_get_finding (row));

  sw_workup_section_go (SW_WORKUP_SECTION (self), &place);
}

static void
reasoned_cb (GtkWidget *page, const SwReply *reply, gpointer data)
{
  GHashTableIter iter;
  gpointer row;

  if (reply == NULL || !reply->done)
    return;
  g_hash_table_iter_init (&iter, SW_WORKUP_OPEN (data)->rows);
  while (g_hash_table_iter_next (&iter, NULL, &row))
    if (g_object_get_data (row, "sw-sent") != NULL)
      {
        g_object_set_data (row, "sw-sent", NULL);
        sw_decision_row_forget (row);
      }
}

static void
reason_cb (SwWorkUpOpen *self, const char *text, SwDecisionRow *row)
{
  SwWorkUpSection *section = SW_WORKUP_SECTION (self);
  const SwPageContext *context = sw_workup_section_get_context (section);
  const SwFinding *finding = sw_decision_row_get_finding (row);
  SwRequest *request = sw_workup_section_request (section, SW_ACT_GIVE_REASON);
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);

  reason->course = context->course;
  reason->tumour = finding->tumour;
  reason->finding = g_strdup (sw_finding_code (finding->code));
  reason->about = g_strdup (finding->about);
  reason->reason = g_strdup (text);
  sw_request_add_next (request, context->dossier, reason);
  g_object_set_data (G_OBJECT (row), "sw-sent", row);
  sw_workup_section_perform (section, request, reasoned_cb, self);
}

static void
lead_in_cb (SwWorkUpOpen *self)
{
  SwPlace place = { SW_PLACE_LEAD_IN, NULL, 0 };

  sw_workup_section_go (SW_WORKUP_SECTION (self), &place);
}

static void
course_cb (SwWorkUpOpen *self)
{
  SwPlace place = { SW_PLACE_COURSE, NULL, 0 };

  sw_workup_section_go (SW_WORKUP_SECTION (self), &place);
}

/* --- rows --- */

static SwDecisionRow *
row_new (SwWorkUpOpen *self)
{
  GtkWidget *row = g_object_ref_sink (sw_decision_row_new ());

  g_signal_connect_object (row, "go", G_CALLBACK (go_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "reason", G_CALLBACK (reason_cb), self, G_CONNECT_SWAPPED);
  return SW_DECISION_ROW (row);
}

/* The row goes on being the same widget, so that a reason being typed keeps its text and its focus. */
static void
place_row (SwDecisionRow *row, GtkBox *box, GtkWidget *after)
{
  GtkWidget *widget = GTK_WIDGET (row), *parent = gtk_widget_get_parent (widget);

  if (parent == GTK_WIDGET (box))
    {
      if (gtk_widget_get_prev_sibling (widget) != after)
        gtk_box_reorder_child_after (box, widget, after);
      return;
    }
  if (parent != NULL)
    gtk_box_remove (GTK_BOX (parent), widget);
  gtk_box_insert_child_after (box, widget, after);
}

static void
remove_row (gpointer data)
{
  GtkWidget *row = data, *parent = gtk_widget_get_parent (row);

  if (parent != NULL)
    gtk_box_remove (GTK_BOX (parent), row);
  g_object_unref (row);
}

typedef struct
{
  GHashTable *rows; /* those that stay */
  GtkWidget *last[N_GROUPS];
  guint counts[N_GROUPS];
} Filling;

static void
show_finding (SwWorkUpOpen *self, const SwWorkUp *work_up, const SwFinding *finding, Filling *filling)
{
  g_autofree char *key = key_of (finding);
  Group group = group_of (work_up, finding);
  gpointer old_key, row;

  if (g_hash_table_contains (filling->rows, key))
    return;
  if (g_hash_table_steal_extended (self->rows, key, &old_key, &row))
    g_free (old_key);
  else
    row = row_new (self);
  sw_decision_row_update (row, work_up, finding);
  place_row (row, self->groups[group], filling->last[group]);
  filling->last[group] = row;
  filling->counts[group]++;
  g_hash_table_insert (filling->rows, g_steal_pointer (&key), row);
}

static void
show_findings (SwWorkUpOpen *self, const SwWorkUp *work_up, Filling *filling)
{
  for (int rank = SW_RANK_REFUSAL; rank < SW_N_RANKS; rank++)
    for (guint i = 0; i < work_up->findings->len; i++)
      {
        const SwFinding *finding = work_up->findings->pdata[i];

        if ((int) sw_finding_rank (finding) == rank)
          show_finding (self, work_up, finding, filling);
      }
  g_hash_table_unref (self->rows);
  self->rows = filling->rows;
}

/* --- words --- */

static char *
summary_of (const SwWorkUp *work_up)
{
  SwStage stage = sw_course_stage (&work_up->c);

  if (sw_case_protocol (&work_up->c) == NULL)
    return g_strdup (_("No course is open. Open one: its protocol says what this dog and its tumours must meet. The questions can "
                       "be answered before."));
  if (stage > SW_STAGE_TREATMENT_DAY)
    return g_strdup (_("This course is past its injection: what its work-up found stands in the log. A further treatment is a "
                       "course of its own."));
  if (work_up->open->len > 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u point stands before the lead-in:",
                                         "%u points stand before the lead-in:", work_up->open->len),
                            work_up->open->len);
  return g_strdup (sw_case_plan (&work_up->c) != NULL ? _("Nothing in the work-up stands against the signed plan.")
                                                      : _("Nothing stands before the lead-in: a vet can sign the medicine plan."));
}

static void
set_class (GtkWidget *widget, const char *css, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, css);
  else
    gtk_widget_remove_css_class (widget, css);
}

static void
show_words (SwWorkUpOpen *self, const SwWorkUp *work_up, const Filling *filling)
{
  g_autofree char *summary = summary_of (work_up);
  g_autofree char *met = g_strdup_printf (_("What is met (%u)"), filling->counts[GROUP_MET]);
  gboolean has_course = sw_case_protocol (&work_up->c) != NULL;
  gboolean prepares = has_course && sw_course_stage (&work_up->c) <= SW_STAGE_TREATMENT_DAY;

  gtk_label_set_text (GTK_LABEL (self->summary), summary);
  set_class (self->summary, "heading", prepares);
  gtk_widget_set_visible (self->decided, filling->counts[GROUP_DECIDED] > 0);
  gtk_expander_set_label (GTK_EXPANDER (self->met), met);
  gtk_widget_set_visible (self->met, filling->counts[GROUP_MET] > 0);
  gtk_widget_set_visible (self->lead_in, prepares);
  gtk_widget_set_visible (self->course, !prepares);
  set_class (self->lead_in, "suggested-action", work_up->open->len == 0);
  set_class (self->course, "suggested-action", !has_course);
}

static void
sw_workup_open_update (SwWorkUpSection *section, const SwWorkUp *work_up, SwPageChanges changes)
{
  SwWorkUpOpen *self = SW_WORKUP_OPEN (section);
  Filling filling = { g_hash_table_new_full (g_str_hash, g_str_equal, g_free, remove_row), { NULL }, { 0 } };

  if (changes & SW_CHANGED_SUBJECT)
    g_hash_table_remove_all (self->rows);
  show_findings (self, work_up, &filling);
  show_words (self, work_up, &filling);
}

static gboolean
sw_workup_open_has_unsaved (SwWorkUpSection *section)
{
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, SW_WORKUP_OPEN (section)->rows);
  while (g_hash_table_iter_next (&iter, NULL, &row))
    if (sw_decision_row_has_unsaved (row))
      return TRUE;
  return FALSE;
}

static void
sw_workup_open_dispose (GObject *object)
{
  g_hash_table_remove_all (SW_WORKUP_OPEN (object)->rows);
  G_OBJECT_CLASS (sw_workup_open_parent_class)->dispose (object);
}

static void
sw_workup_open_finalize (GObject *object)
{
  g_hash_table_unref (SW_WORKUP_OPEN (object)->rows);
  G_OBJECT_CLASS (sw_workup_open_parent_class)->finalize (object);
}

static void
sw_workup_open_class_init (SwWorkUpOpenClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_workup_open_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_workup_open_finalize;
  SW_WORKUP_SECTION_CLASS (class)->update = sw_workup_open_update;
  SW_WORKUP_SECTION_CLASS (class)->has_unsaved = sw_workup_open_has_unsaved;
}

static void
sw_workup_open_init (SwWorkUpOpen *self)
{
  GtkBox *body = sw_workup_section_get_body (SW_WORKUP_SECTION (self));

  self->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, remove_row);
  self->summary = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->summary), 0);
  gtk_label_set_wrap (GTK_LABEL (self->summary), TRUE);
  for (int i = 0; i < N_GROUPS; i++)
    {
      self->groups[i] = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
      gtk_widget_add_css_class (GTK_WIDGET (self->groups[i]), "findings");
    }
  self->decided = sw_heading_new (_("Decided or to be noted"));
  self->met = gtk_expander_new (NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->met), GTK_ACCESSIBLE_PROPERTY_LABEL, _("What is met"), -1);
  gtk_expander_set_child (GTK_EXPANDER (self->met), GTK_WIDGET (self->groups[GROUP_MET]));
  gtk_box_append (body, self->summary);
  gtk_box_append (body, GTK_WIDGET (self->groups[GROUP_OPEN]));
  gtk_box_append (body, self->decided);
  gtk_box_append (body, GTK_WIDGET (self->groups[GROUP_DECIDED]));
  gtk_box_append (body, self->met);
  self->lead_in = sw_button_new (_("Go to _Lead-in"));
  self->course = sw_button_new (_("Go to _Course"));
  sw_workup_section_add_button (SW_WORKUP_SECTION (self), self->course);
  sw_workup_section_add_button (SW_WORKUP_SECTION (self), self->lead_in);
  g_signal_connect_object (self->course, "clicked", G_CALLBACK (course_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->lead_in, "clicked", G_CALLBACK (lead_in_cb), self, G_CONNECT_SWAPPED);
}

GPtrArray *
sw_workup_open_get_rows (SwWorkUpOpen *self)
{
  GPtrArray *rows = g_ptr_array_new ();

  for (int i = 0; i < N_GROUPS; i++)
    for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->groups[i])); row != NULL;
         row = gtk_widget_get_next_sibling (row))
      g_ptr_array_add (rows, row);
  return rows;
}
