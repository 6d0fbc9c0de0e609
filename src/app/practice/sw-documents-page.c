/* sw-documents-page.c: protocols, medicines and interactions
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-documents-page.h"

#include "sw-adoption-dialog.h"
#include "sw-adoption-together.h"
#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"

#include <glib/gi18n-lib.h>

struct _SwDocumentsPage
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *scrolled;
  GtkWidget *list;
  SwFindingView *answer;

  /* owned */
  SwRecord *record;
  SwBooks *shipped; /* parsed once, when the page is first shown */

  gint64 person;
  gint64 asked; /* adoption row, while it is asked whether to take it back */
};

G_DEFINE_FINAL_TYPE (SwDocumentsPage, sw_documents_page, GTK_TYPE_WIDGET)

static const SwAdoption *
adoption_of (SwDocumentsPage *self, const SwDocumentHead *head)
{
  const SwPractice *practice = sw_record_get_practice (self->record);
  const SwAdoption *adoption;

  for (guint i = 0; (adoption = sw_facts_next (&practice->facts, SW_FACT_ADOPTION, &i)) != NULL;)
    if (adoption->doc_kind == (gint64) head->kind && g_str_equal (adoption->doc_id, head->id))
      return adoption;
  return NULL;
}

static gboolean
is_same_document (SwDocumentsPage *self, const SwAdoption *adoption, const SwDocumentHead *head)
{
  const SwDocument *document = sw_facts_by_id (&sw_record_get_practice (self->record)->facts, SW_FACT_DOCUMENT,
                                               adoption->document);

  return document != NULL && g_str_equal (document->digest, head->digest);
}

/* "adopted by Ines on 2026-05-02, digest 1a2b3c4d", or what stands in the way. */
static char *
format_standing (SwDocumentsPage *self, const SwDocumentHead *head, const SwAdoption *adoption)
{
  g_autoptr (GPtrArray) empty = sw_document_figures_to_fill (head);
  g_autofree char *day = NULL;

  if (adoption == NULL && empty->len > 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "can't be adopted: %u figure has no confirmed value",
                                         "can't be adopted: %u figures have no confirmed value", empty->len),
                            empty->len);
  if (adoption == NULL)
    return g_strdup (_("not adopted"));
  day = sw_day_format (sw_moment_from_utc (sw_record_get_zone (self->record), adoption->fact.recorded_us).day);
  if (!is_same_document (self, adoption, head))
    return g_strdup_printf (_("another revision was adopted on %s"), day);

  return g_strdup_printf (_("adopted by %s on %s, digest %.8s"),
                          sw_practice_person_name (sw_record_get_practice (self->record),
                                                   adoption->fact.person), day, head->digest);
}

static const SwDocumentHead *
head_of (GtkWidget *button)
{
  return g_object_get_data (G_OBJECT (button), "sw-head");
}

static SwDocumentsPage *
page_of (GtkButton *button)
{
  return SW_DOCUMENTS_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (button), SW_TYPE_DOCUMENTS_PAGE));
}

static void
adopt_cb (GtkButton *button, SwBooks *books)
{
  SwDocumentsPage *self = page_of (button);
  g_autoptr (GPtrArray) together = sw_adoption_together (sw_record_get_practice (self->record), books,
                                                         head_of (GTK_WIDGET (button)));

  sw_adoption_dialog_adopt (GTK_WIDGET (self), self->record, self->person, books, together);
}

static void
look_cb (GtkButton *button, SwBooks *books)
{
  sw_adoption_dialog_look (GTK_WIDGET (page_of (button)), books, head_of (GTK_WIDGET (button)));
}

static void
take_back (gboolean yes, gpointer data)
{
  SwDocumentsPage *self = data;
  const SwAdoption *adoption = sw_facts_by_id (&sw_record_get_practice (self->record)->facts, SW_FACT_ADOPTION,
                                               self->asked);
  SwRequest *request;

  if (!yes || adoption == NULL)
    return;
  request = sw_request_new (SW_ACT_ADOPT_DOCUMENT, self->person, 0);
  sw_request_add (request, sw_fact_withdrawal (adoption));
  sw_perform (GTK_WIDGET (self), self->record, request, self->answer, NULL, NULL);
}

static void
take_back_cb (GtkButton *button, SwBooks *books)
{
  SwDocumentsPage *self = page_of (button);
  const SwDocumentHead *head = head_of (GTK_WIDGET (button));
  const SwAdoption *adoption = adoption_of (self, head);

  if (adoption == NULL)
    return;
  self->asked = adoption->fact.id;
  sw_dialog_ask (GTK_WIDGET (self), head->title,
                 _("It is no longer used for new courses. Courses made with it keep it."),
                 _("Take Out of Use"), take_back, self);
}

/* Named with its document, so that each button of the page has a name of its own. */
static void
add_button (GtkWidget *row, const char *label, const SwDocumentHead *head, SwBooks *books, GCallback callback)
{
  GtkWidget *button = gtk_button_new ();
  g_autofree char *name = g_strdup_printf ("%s %s", label, head->title);

  gtk_button_set_child (GTK_BUTTON (button), gtk_label_new (label));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_object_set_data (G_OBJECT (button), "sw-head", (gpointer) head);
  g_signal_connect_data (button, "clicked", callback, sw_books_ref (books),
                         (GClosureNotify) (void (*) (void)) sw_books_unref, 0);
  gtk_box_append (GTK_BOX (row), button);
}

static GtkWidget *
words_new (SwDocumentsPage *self, const SwDocumentHead *head, const SwAdoption *adoption)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *standing = format_standing (self, head, adoption);
  g_autofree char *second = g_strdup_printf (_("%s, revision %s: %s"), head->id, head->revision, standing);

  gtk_box_append (GTK_BOX (words), sw_heading_new (head->title));
  gtk_box_append (GTK_BOX (words), sw_quiet_new (second));
  gtk_widget_set_hexpand (words, TRUE);

  return words;
}

static void
add_document (SwDocumentsPage *self, const SwDocumentHead *head, SwBooks *books)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  const SwAdoption *adoption = adoption_of (self, head);
  gboolean adopted = adoption != NULL && is_same_document (self, adoption, head);

  gtk_widget_add_css_class (row, "document");
  gtk_box_append (GTK_BOX (row), words_new (self, head, adoption));
  add_button (row, _("Look"), head, books, G_CALLBACK (look_cb));
  if (adopted)
    add_button (row, _("Take Out of Use…"), head, books, G_CALLBACK (take_back_cb));
  else if (sw_document_adoptable (head))
    add_button (row, _("Adopt…"), head, books, G_CALLBACK (adopt_cb));
  gtk_box_append (GTK_BOX (self->list), row);
}

static gboolean
is_shipped (SwDocumentsPage *self, const SwDocumentHead *head)
{
  g_autoptr (GPtrArray) heads = sw_books_heads (self->shipped);

  for (guint i = 0; i < heads->len; i++)
    if (g_str_equal (((const SwDocumentHead *) heads->pdata[i])->digest, head->digest))
      return TRUE;
  return FALSE;
}

static void
add_section (SwDocumentsPage *self, const char *heading)
{
  GtkWidget *label = sw_quiet_new (heading);

  gtk_widget_remove_css_class (label, "quiet");
  gtk_widget_add_css_class (label, "section-heading");
  gtk_box_append (GTK_BOX (self->list), label);
}

static void
add_kind (SwDocumentsPage *self, SwDocumentKind kind, const char *heading, SwBooks *books, gboolean own)
{
  g_autoptr (GPtrArray) heads = sw_books_heads (books);
  gboolean first = TRUE;

  for (guint i = 0; i < heads->len; i++)
    {
      const SwDocumentHead *head = heads->pdata[i];

      if (head->kind != kind || (own && is_shipped (self, head)))
        continue;
      if (first)
        add_section (self, heading);
      first = FALSE;
      add_document (self, head, books);
    }
}

static void
add_all (SwDocumentsPage *self)
{
  static const struct
  {
    SwDocumentKind kind;
    const char *shipped;
    const char *own;
  } kinds[] = {
    { SW_DOCUMENT_PROTOCOL, N_("Protocols"), N_("Protocols of this record's own") },
    { SW_DOCUMENT_INTERACTIONS, N_("Interactions"), N_("Interactions of this record's own") },
    { SW_DOCUMENT_MEDICINE, N_("Medicines"), N_("Medicines of this record's own") },
  };
  SwBooks *own = (SwBooks *) sw_record_get_books (self->record);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      add_kind (self, kinds[i].kind, _(kinds[i].shipped), self->shipped, FALSE);
      add_kind (self, kinds[i].kind, _(kinds[i].own), own, TRUE);
    }
}

static void
sw_documents_page_dispose (GObject *object)
{
  SwDocumentsPage *self = SW_DOCUMENTS_PAGE (object);

  g_clear_pointer (&self->scrolled, gtk_widget_unparent);
  g_clear_pointer (&self->shipped, sw_books_unref);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (sw_documents_page_parent_class)->dispose (object);
}

/* A page that nobody looks at is not built: the documents are many. */
static void
fill (SwDocumentsPage *self)
{
  g_autoptr (GError) error = NULL;
  GtkWidget *child;

  if (self->record == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (self->shipped == NULL)
    self->shipped = sw_books_new_shipped (NULL, &error);
  if (self->shipped == NULL)
    {
      sw_finding_view_set_error (self->answer, error);
      return;
    }
  while ((child = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_box_remove (GTK_BOX (self->list), child);
  add_all (self);
}

static void
sw_documents_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_documents_page_parent_class)->map (widget);
  fill (SW_DOCUMENTS_PAGE (widget));
}

static void
sw_documents_page_class_init (SwDocumentsPageClass *class)
{
  G_OBJECT_CLASS (class)->dispose = sw_documents_page_dispose;
  GTK_WIDGET_CLASS (class)->map = sw_documents_page_map;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_documents_page_init (SwDocumentsPage *self)
{
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  gtk_box_append (GTK_BOX (body),
                  sw_quiet_new (_("The figures that decide stand in documents. A document is used only after a vet "
                                  "of this practice has "
                                  "adopted it, figure by figure; its exact bytes are then kept in the record.")));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->answer));
  gtk_box_append (GTK_BOX (body), self->list);
  self->scrolled = sw_scrolled_new (body);
  gtk_widget_set_parent (self->scrolled, GTK_WIDGET (self));
}

void
sw_documents_page_show (SwDocumentsPage *self, SwRecord *record, gint64 person)
{
  g_set_object (&self->record, record);
  self->person = person;
  fill (self);
}
