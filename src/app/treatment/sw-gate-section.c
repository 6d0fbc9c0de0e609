/* sw-gate-section.c: where the gate before the needle stands
 *
 *   lead-in      7 of 7 confirmed (5 corticosteroid, 1 H1, 1 H2)
 *   suitability  stands
 *   consent      stands, signed by A. Aldane, 2026-05-10
 *   still blocks the release:
 *   ■ stop         ... sentence, what is open                                    [Go There]
 *   ◆ vet decides  ...                                                           [Write the Reason…]
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-gate-section-private.h"

#include "sw-dialogs.h"
#include "sw-dose.h"
#include "sw-form.h"
#include "sw-gate.h"
#include "sw-interaction.h"
#include "sw-suitability.h"

#include <glib/gi18n-lib.h>

struct _SwGateSection
{
  SwTreatmentSection parent_instance;

  /* children */
  GtkWidget *lead_in;
  GtkWidget *suitability;
  GtkWidget *consent;
  GtkWidget *list;   /* what still blocks, owned until the page shows it */
  GtkWidget *blocks; /* its rows */
  SwFindingView *answer;

  GPtrArray *shown;   /* SwFinding of the rows, in their order */
  GPtrArray *acts;    /* GtkWidget, borrowed, as shown */
  char *said;         /* the sentences of the list */
  SwFinding *deciding; /* while its reason is asked */
};

G_DEFINE_FINAL_TYPE (SwGateSection, sw_gate_section, SW_TYPE_TREATMENT_SECTION)

enum { CURE, N_SIGNALS };

static guint signals[N_SIGNALS];

GPtrArray *
sw_gate_section_blocks (const SwPageContext *context)
{
  SwCase c = sw_page_context_case (context);
  g_autoptr (GPtrArray) findings = sw_gate_b (&c, SW_GATE_AT_RELEASE);
  g_autoptr (SwDoseResult) dose = sw_dose_of_case (&c, NULL);

  for (guint i = 0; dose != NULL && i < dose->refusals->len; i++)
    g_ptr_array_add (findings, sw_finding_copy (dose->refusals->pdata[i]));
  for (guint i = 0; dose != NULL && i < dose->notes->len; i++)
    g_ptr_array_add (findings, sw_finding_copy (dose->notes->pdata[i]));
  return sw_findings_open (&c, findings);
}

static gboolean
is_same (const SwFinding *a, const SwFinding *b)
{
  return a->code == b->code && a->tumour == b->tumour && a->dose == b->dose && g_strcmp0 (a->about, b->about) == 0;
}

GtkWidget *
sw_gate_section_act_of (SwGateSection *self, const SwFinding *finding)
{
  for (guint i = 0; i < self->shown->len; i++)
    if (is_same (self->shown->pdata[i], finding))
      return self->acts->pdata[i];
  return NULL;
}

const char *
sw_gate_step_of (const SwFinding *finding)
{
  static const SwFindingCode of_lead_in[] = {
    SW_FINDING_NO_PLAN, SW_FINDING_OTHER_DAY, SW_FINDING_DOSE_NOT_KNOWN, SW_FINDING_DOSE_LOST, SW_FINDING_DOSE_NOT_YET,
    SW_FINDING_DOSE_NOT_PLANNED, SW_FINDING_DAY_DOSE_MISSING, SW_FINDING_DAY_DOSE_RECENT, SW_FINDING_REPLACEMENT_RECENT,
    SW_FINDING_TWO_DOSES_LOST, SW_FINDING_OUT_OF_RANGE,
  };

  for (guint i = 0; i < G_N_ELEMENTS (of_lead_in); i++)
    if (of_lead_in[i] == finding->code)
      return "lead-in";
  /* Suitability, medicine history, documents and consent are answered at the work-up. */
  if ((finding->code >= SW_FINDING_MEETS && finding->code <= SW_FINDING_NOT_CHECKED)
      || (finding->code >= SW_FINDING_NO_TUMOUR && finding->code <= SW_FINDING_THIRD_INJECTION))
    return "work-up";
  return NULL;
}

/* --- the vet's reason --- */

static SwReason *
make_reason (const SwPageContext *context, const SwFinding *finding, const char *text)
{
  SwReason *reason = sw_new (SW_FACT_REASON, SwReason);
  const SwFact *tip;

  reason->course = context->course;
  reason->tumour = finding->tumour;
  reason->finding = g_strdup (sw_finding_code (finding->code));
  reason->about = g_strdup (finding->about);
  reason->reason = g_strdup (text);
  tip = sw_facts_tip_like (&context->dossier->facts, reason);
  if (tip != NULL)
    reason->fact.replaces = tip->id;

  return reason;
}

static void
reasoned_cb (const char *text, gpointer data)
{
  g_autoptr (SwGateSection) self = data;
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  g_autoptr (SwFinding) finding = g_steal_pointer (&self->deciding);
  SwRequest *request;

  if (text == NULL || finding == NULL || sw_treatment_section_page (section) == NULL)
    return;
  request = sw_treatment_section_request (section, SW_ACT_GIVE_REASON);
  sw_request_add (request, make_reason (sw_treatment_section_context (section), finding, text));
  sw_treatment_section_perform (section, GTK_WIDGET (self), request, self->answer, NULL, NULL);
}

static SwFinding *
finding_of (SwGateSection *self, GtkWidget *button)
{
  for (guint i = 0; i < self->acts->len; i++)
    if (self->acts->pdata[i] == button)
      return self->shown->pdata[i];
  g_return_val_if_reached (NULL);
}

static void
decide_cb (GtkWidget *button, SwGateSection *self)
{
  SwFinding *finding = finding_of (self, button);
  g_autofree char *sentence = sw_finding_sentence (finding);

  g_clear_pointer (&self->deciding, sw_finding_free);
  self->deciding = sw_finding_copy (finding);
  sw_dialog_reason (GTK_WIDGET (self), _ ("The vet decides"), sentence, _ ("Record the Reason"), reasoned_cb,
                    g_object_ref (self));
}

static void
cure_cb (GtkWidget *button, SwGateSection *self)
{
  g_signal_emit (self, signals[CURE], 0, finding_of (self, button));
}

/* --- the list --- */

static const char *
label_of_step (const char *step)
{
  if (step == NULL)
    return _("Go There");
  return g_str_equal (step, "lead-in") ? _("Open the Lead-in") : _("Open the Work-up");
}

static GtkWidget *
act_new (SwGateSection *self, const SwFinding *finding)
{
  gboolean decides = finding->severity == SW_VET_DECIDES;
  const char *step = sw_gate_step_of (finding);
  const char *label = decides ? _("Write the Reason…") : label_of_step (step);
  g_autofree char *sentence = sw_finding_sentence (finding);
  g_autofree char *name = g_strdup_printf ("%s: %s", label, sentence);
  GtkWidget *act = sw_named_button_new (label, name);

  gtk_widget_set_valign (act, GTK_ALIGN_START);
  g_signal_connect (act, "clicked", decides ? G_CALLBACK (decide_cb) : G_CALLBACK (cure_cb), self);

  return act;
}

static void
add_block (SwGateSection *self, const SwFinding *finding)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *row = sw_finding_row_new (finding);
  GtkWidget *act = act_new (self, finding);

  gtk_widget_set_hexpand (row, TRUE);
  gtk_box_append (GTK_BOX (line), row);
  gtk_box_append (GTK_BOX (line), act);
  gtk_box_append (GTK_BOX (self->blocks), line);
  g_ptr_array_add (self->shown, sw_finding_copy (finding));
  g_ptr_array_add (self->acts, act);
}

static void
clear_blocks (SwGateSection *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->blocks)) != NULL)
    gtk_box_remove (GTK_BOX (self->blocks), child);
  g_ptr_array_set_size (self->shown, 0);
  g_ptr_array_set_size (self->acts, 0);
}

/* Questions not asked yet are one row: the first of them stands for all. */
static void
fill_blocks (SwGateSection *self, const GPtrArray *open)
{
  guint not_asked = 0;
  g_autofree char *more = NULL;

  for (guint i = 0; i < open->len; i++)
    {
      const SwFinding *finding = open->pdata[i];

      if (finding->code != SW_FINDING_NOT_ASKED || not_asked++ == 0)
        add_block (self, finding);
    }
  if (not_asked < 2)
    return;
  more = g_strdup_printf (ngettext ("… and %u more question of today is not answered.",
                                    "… and %u more questions of today are not answered.", not_asked - 1),
                          not_asked - 1);
  gtk_box_append (GTK_BOX (self->blocks), sw_quiet_new (more));
}

static char *
sentences_of (const GPtrArray *open)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < open->len; i++)
    {
      g_autofree char *sentence = sw_finding_sentence (open->pdata[i]);

      g_string_append_printf (text, "%s\n", sentence);
    }
  return g_string_free (text, FALSE);
}

static void
show_blocks (SwGateSection *self, const SwPageContext *context)
{
  g_autoptr (GPtrArray) open = sw_gate_section_blocks (context);
  g_autofree char *said = sentences_of (open);

  /* A list that says the same is left alone: the focus may be in it. */
  if (g_strcmp0 (said, self->said) == 0)
    return;
  g_free (self->said);
  self->said = g_steal_pointer (&said);
  clear_blocks (self);
  fill_blocks (self, open);
}

/* --- the summary --- */

static void
show_lead_in (SwGateSection *self, const SwCase *c)
{
  g_autoptr (SwGateCount) count = sw_gate_count (c);
  g_autofree char *words = sw_gate_count_words (count);

  gtk_label_set_text (GTK_LABEL (self->lead_in), words);
}

static void
append_all (GPtrArray *to, GPtrArray *from)
{
  for (guint i = 0; i < from->len; i++)
    g_ptr_array_add (to, sw_finding_copy (from->pdata[i]));
  g_ptr_array_unref (from);
}

static void
show_suitability (SwGateSection *self, const SwCase *c)
{
  g_autoptr (GArray) tumours = sw_dossier_course_tumours (c->dossier, c->course);
  g_autoptr (GPtrArray) findings = sw_suitability_of_dog (c);
  g_autoptr (GPtrArray) open = NULL;
  g_autofree char *words = NULL;

  for (guint i = 0; i < tumours->len; i++)
    append_all (findings, sw_suitability_of_tumour (c, g_array_index (tumours, gint64, i)));
  append_all (findings, sw_interactions_check (c));
  open = sw_findings_open (c, findings);
  words = open->len == 0 ? g_strdup (_("stands"))
                         : g_strdup_printf (ngettext ("%u point open", "%u points open", open->len), open->len);
  gtk_label_set_text (GTK_LABEL (self->suitability), words);
}

static void
show_consent (SwGateSection *self, const SwPageContext *context)
{
  const SwConsent *consent = sw_facts_of_course (&context->dossier->facts, SW_FACT_CONSENT, context->course);
  g_autofree char *day = consent != NULL ? sw_day_format (consent->day) : NULL;
  g_autofree char *words = NULL;

  if (consent == NULL)
    words = g_strdup (_("not recorded"));
  else if (consent->state == SW_CONSENT_WITHDRAWN)
    words = g_strdup_printf (_("withdrawn by %s, %s"), consent->signer, day);
  else
    words = g_strdup_printf (_("stands, signed by %s, %s"), consent->signer, day);
  gtk_label_set_text (GTK_LABEL (self->consent), words);
}

static void
sw_gate_section_update (SwTreatmentSection *section, const SwPageContext *context, SwPageChanges changes)
{
  SwGateSection *self = SW_GATE_SECTION (section);
  SwCase c = sw_treatment_case (context);
  gboolean asks = sw_treatment_release (context) == NULL;

  show_lead_in (self, &c);
  show_suitability (self, &c);
  show_consent (self, context);
  if (asks)
    show_blocks (self, context);
  gtk_widget_set_visible (self->list, asks && self->shown->len > 0);
}

static void
sw_gate_section_dispose (GObject *object)
{
  g_clear_object (&SW_GATE_SECTION (object)->list);
  G_OBJECT_CLASS (sw_gate_section_parent_class)->dispose (object);
}

static void
sw_gate_section_finalize (GObject *object)
{
  SwGateSection *self = SW_GATE_SECTION (object);

  g_ptr_array_unref (self->shown);
  g_ptr_array_unref (self->acts);
  g_free (self->said);
  g_clear_pointer (&self->deciding, sw_finding_free);
  G_OBJECT_CLASS (sw_gate_section_parent_class)->finalize (object);
}

static void
sw_gate_section_class_init (SwGateSectionClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_gate_section_dispose;
  G_OBJECT_CLASS (class)->finalize = sw_gate_section_finalize;
  SW_TREATMENT_SECTION_CLASS (class)->update = sw_gate_section_update;
  signals[CURE] = g_signal_new ("cure", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                1, G_TYPE_POINTER);
}

static GtkWidget *
summary_label (GtkWidget *form, const char *name)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  sw_form_add (GTK_GRID (form), name, label);

  return label;
}

static void
make_list (SwGateSection *self)
{
  GtkWidget *heading = sw_heading_new (_("What still blocks the release"));

  gtk_widget_add_css_class (heading, "subheading");
  self->list = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->blocks = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (self->list), heading);
  gtk_box_append (GTK_BOX (self->list), self->blocks);
  gtk_box_append (GTK_BOX (self->list), GTK_WIDGET (self->answer));
}

static void
sw_gate_section_init (SwGateSection *self)
{
  SwTreatmentSection *section = SW_TREATMENT_SECTION (self);
  GtkWidget *form = sw_form_new ();

  self->shown = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_finding_free);
  self->acts = g_ptr_array_new ();
  sw_treatment_section_set_heading (section, _("Before the needle"));
  self->lead_in = summary_label (form, _("lead-in"));
  self->suitability = summary_label (form, _("suitability"));
  self->consent = summary_label (form, _("consent"));
  sw_treatment_section_append (section, form);
  make_list (self);
}

GtkWidget *
sw_gate_section_get_list (SwGateSection *self)
{
  return self->list;
}
