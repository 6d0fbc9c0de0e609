/* sw-medicine-dialog.c: a medicine from elsewhere
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-medicine-dialog.h"

#include "sw-dialogs.h"
#include "sw-form.h"
#include "sw-perform.h"
#include "sw-quantity-entry.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The drop-down's first entries, before the substances. */
enum { CHOOSE, UNKNOWN_NSAID, OTHER, FIRST_KNOWN };

typedef struct
{
  SwMedicineFields fields; /* borrowed: children of the window */
  SwFindingView *answer;
  GtkWidget *window;
  GtkWidget *other_label;

  /* owned */
  SwPageContext *context;
  GPtrArray *known; /* names in the drop-down after its first entries */

  const SwMedicineTaken *old; /* borrowed of the context's dossier */
} Taking;

static void
taking_free (gpointer data)
{
  Taking *taking = data;

  sw_page_context_unref (taking->context);
  g_ptr_array_unref (taking->known);
  g_free (taking);
}

const char *
sw_substance_name (const char *substance)
{
  return g_str_equal (substance, SW_UNKNOWN_NSAID) ? _("unknown NSAID") : substance;
}

/* --- substances --- */

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static void
add_name (GPtrArray *names, const char *name)
{
  if (!g_str_equal (name, SW_UNKNOWN_NSAID) && !g_ptr_array_find_with_equal_func (names, name, g_str_equal, NULL))
    g_ptr_array_add (names, g_strdup (name));
}

/* Every substance that some document of the record knows, by name. (transfer full) */
static GPtrArray *
known_substances (const SwBooks *books)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const GPtrArray *medicines = sw_books_medicines (books);
  const SwInteractions *document = sw_books_interactions (books);

  for (guint i = 0; i < medicines->len; i++)
    add_name (names, ((const SwMedicine *) medicines->pdata[i])->head.id);
  for (guint i = 0; document != NULL && i < document->classes->len; i++)
    {
      const SwMedicineClass *listed = document->classes->pdata[i];

      for (char **name = listed->substances; name != NULL && *name != NULL; name++)
        add_name (names, *name);
    }
  g_ptr_array_sort (names, compare_names);
  return names;
}

static GtkWidget *
known_new (const GPtrArray *known)
{
  GtkStringList *list = gtk_string_list_new ((const char *const[]){ _("choose…"), _("unknown NSAID"), _("another, typed below"),
                                                                    NULL });
  GtkExpression *name = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  GtkWidget *choice;

  for (guint i = 0; i < known->len; i++)
    gtk_string_list_append (list, known->pdata[i]);
  choice = gtk_drop_down_new (G_LIST_MODEL (list), name);
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (choice), TRUE);
  gtk_widget_set_halign (choice, GTK_ALIGN_START);
  return choice;
}

static guint
position_of (const Taking *taking, const char *substance)
{
  guint found;

  if (g_str_equal (substance, SW_UNKNOWN_NSAID))
    return UNKNOWN_NSAID;
  if (g_ptr_array_find_with_equal_func (taking->known, substance, g_str_equal, &found))
    return FIRST_KNOWN + found;
  return OTHER;
}

/* Lower-case, as documents name them; NULL: none yet. (transfer full) */
static char *
chosen_substance (const Taking *taking)
{
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (taking->fields.known));
  g_autofree char *typed = sw_field_dup_text (taking->fields.other);

  if (selected == UNKNOWN_NSAID)
    return g_strdup (SW_UNKNOWN_NSAID);
  if (selected >= FIRST_KNOWN && selected < FIRST_KNOWN + taking->known->len)
    return g_strdup (taking->known->pdata[selected - FIRST_KNOWN]);
  return selected == OTHER && typed != NULL ? g_utf8_strdown (typed, -1) : NULL;
}

static void
known_cb (GtkDropDown *known, GParamSpec *pspec, Taking *taking)
{
  gboolean other = gtk_drop_down_get_selected (known) == OTHER;

  gtk_widget_set_visible (taking->fields.other, other);
  gtk_widget_set_visible (taking->other_label, other);
}

static void
goes_on_cb (GtkCheckButton *goes_on, Taking *taking)
{
  gtk_widget_set_sensitive (taking->fields.last_day, !gtk_check_button_get_active (goes_on));
}

/* --- saving --- */

static void
replied_cb (GtkWidget *window, const SwReply *reply, gpointer data)
{
  if (reply != NULL && reply->done)
    gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
take (GtkWidget *field, gint64 *value)
{
  if (sw_quantity_entry_take (SW_QUANTITY_ENTRY (field), value))
    return TRUE;
  gtk_widget_grab_focus (field);
  return FALSE;
}

/* The last day is a day, or the medicine goes on: never left open by forgetting. */
static gboolean
take_days (Taking *taking, SwMedicineTaken *taken)
{
  gboolean goes_on = gtk_check_button_get_active (GTK_CHECK_BUTTON (taking->fields.goes_on));

  if (!take (taking->fields.first_day, &taken->first_day))
    return FALSE;
  taken->last_day = SW_NO_DAY;
  if (goes_on)
    return TRUE;
  if (!take (taking->fields.last_day, &taken->last_day))
    return FALSE;
  if (taken->last_day != SW_NO_DAY && (taken->first_day == SW_NO_DAY || taken->last_day >= taken->first_day))
    return TRUE;
  sw_quantity_entry_set_error (SW_QUANTITY_ENTRY (taking->fields.last_day),
                               taken->last_day == SW_NO_DAY ? _("Give the day of the last dose, or tick that it goes on.")
                                                            : _("The last day lies before the first."));
  gtk_widget_grab_focus (taking->fields.last_day);
  return FALSE;
}

static void
take_texts (Taking *taking, SwMedicineTaken *taken)
{
  g_free (taken->product);
  g_free (taken->note);
  taken->product = sw_field_dup_text (taking->fields.product);
  taken->note = sw_field_dup_text (taking->fields.note);
}

/* Whether nothing else is in the pack: not asked, or yes, or no. */
static gint64
single_of (const Taking *taking)
{
  int chosen = sw_choice_get (taking->fields.single, TRUE);

  return chosen < 0 ? SW_UNKNOWN : chosen == 0;
}

static gboolean
fill_in (Taking *taking, SwMedicineTaken *taken)
{
  if (!take (taking->fields.dose, &taken->dose_ug) || !take (taking->fields.per_day, &taken->per_day_milli)
      || !take_days (taking, taken))
    return FALSE;
  taken->form = sw_choice_get (taking->fields.form, FALSE);
  taken->single_substance = single_of (taking);
  taken->xylitol_free = gtk_check_button_get_active (GTK_CHECK_BUTTON (taking->fields.xylitol_free)) ? 1 : SW_UNKNOWN;
  take_texts (taking, taken);
  return TRUE;
}

static void
save_cb (GtkButton *button, Taking *taking)
{
  SwPageContext *context = taking->context;
  g_autofree char *substance = chosen_substance (taking);
  SwMedicineTaken *taken;
  SwRequest *request;

  sw_finding_view_clear (taking->answer);
  if (substance == NULL)
    {
      sw_finding_view_set_sentence (taking->answer, SW_NOT_KNOWN, _("Which substance is it? Without one it can't be checked."), NULL);
      gtk_widget_grab_focus (taking->fields.known);
      return;
    }
  taken = taking->old != NULL ? sw_fact_correction (taking->old) : sw_fact_new (SW_FACT_MEDICINE_TAKEN);
  g_free (taken->substance);
  taken->substance = g_steal_pointer (&substance);
  if (!fill_in (taking, taken))
    {
      sw_fact_free (taken);
      return;
    }
  request = sw_request_new (SW_ACT_RECORD_MEDICINE_TAKEN, context->person, context->patient);
  sw_request_add (request, taken);
  sw_perform (taking->window, context->record, request, taking->answer, replied_cb, NULL);
}

/* --- the form --- */

static GtkWidget *
form_choice_new (void)
{
  const char *names[SW_N_FORMS + 1] = { NULL };

  for (int i = 0; i < SW_N_FORMS; i++)
    names[i] = sw_medicine_form_name (i);
  return sw_choice_new (_("form"), NULL, names);
}

static void
make_fields (Taking *taking)
{
  SwMedicineFields *fields = &taking->fields;
  const char *const single[] = { _("yes, nothing else"), _("no, something besides"), NULL };

  fields->known = known_new (taking->known);
  fields->other = sw_text_field_new (24);
  fields->product = sw_text_field_new (32);
  fields->dose = sw_quantity_entry_new (SW_QUANTITY_DECIMAL, _("each dose, in mg"));
  fields->per_day = sw_quantity_entry_new (SW_QUANTITY_DECIMAL, _("times a day"));
  fields->first_day = sw_quantity_entry_new (SW_QUANTITY_DAY, _("first day"));
  fields->last_day = sw_quantity_entry_new (SW_QUANTITY_DAY, _("last day"));
  fields->goes_on = sw_check_new (_("goes on"));
  fields->form = form_choice_new ();
  fields->single = sw_choice_new (_("single substance"), _("not known"), single);
  fields->xylitol_free = sw_check_new (_("no xylitol: the label of this pack was read"));
  fields->note = sw_text_field_new (32);
  fields->save = sw_primary_button_new (taking->old != NULL ? _("Record the _Correction") : _("_Record the Medicine"));
}

static void
show_old (Taking *taking)
{
  const SwMedicineFields *fields = &taking->fields;
  const SwMedicineTaken *old = taking->old;
  gboolean known = position_of (taking, old->substance) != OTHER;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->known), position_of (taking, old->substance));
  gtk_editable_set_text (GTK_EDITABLE (fields->other), known ? "" : old->substance);
  gtk_editable_set_text (GTK_EDITABLE (fields->product), old->product != NULL ? old->product : "");
  gtk_editable_set_text (GTK_EDITABLE (fields->note), old->note != NULL ? old->note : "");
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (fields->dose), old->dose_ug);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (fields->per_day), old->per_day_milli);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (fields->first_day), old->first_day);
  sw_quantity_entry_set_value (SW_QUANTITY_ENTRY (fields->last_day), old->last_day);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->goes_on), old->last_day == SW_NO_DAY);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->xylitol_free), old->xylitol_free == 1);
  sw_choice_set (fields->form, FALSE, (int) old->form);
  sw_choice_set (fields->single, TRUE, old->single_substance == SW_UNKNOWN ? -1 : !old->single_substance);
}

static GtkWidget *
form_new (Taking *taking)
{
  const SwMedicineFields *fields = &taking->fields;
  GtkWidget *form = sw_form_new ();
  GtkGrid *grid = GTK_GRID (form);

  sw_form_add (grid, _("_substance"), fields->known);
  taking->other_label = sw_form_add (grid, _("its na_me"), fields->other);
  sw_form_add (grid, _("_product, as on the pack"), fields->product);
  sw_form_add (grid, _("_form"), fields->form);
  sw_form_add (grid, _("each _dose, in mg"), fields->dose);
  sw_form_add (grid, _("_times a day"), fields->per_day);
  sw_form_add (grid, _("f_irst day"), fields->first_day);
  sw_form_add (grid, _("_last day"), fields->last_day);
  sw_form_add (grid, "", fields->goes_on);
  sw_form_add (grid, _("single s_ubstance"), fields->single);
  sw_form_add (grid, "", fields->xylitol_free);
  sw_form_add (grid, _("_note"), fields->note);

  return form;
}

GtkWidget *
sw_medicine_dialog_show (GtkWidget *parent, SwPageContext *context, const SwMedicineTaken *old)
{
  Taking *taking = g_new0 (Taking, 1);
  GtkWidget *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  taking->context = sw_page_context_ref (context);
  taking->known = known_substances (sw_page_context_books (context));
  taking->old = old;
  taking->answer = SW_FINDING_VIEW (sw_finding_view_new ());
  make_fields (taking);
  gtk_box_append (GTK_BOX (body), form_new (taking));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (taking->answer));
  if (old != NULL)
    show_old (taking);
  known_cb (GTK_DROP_DOWN (taking->fields.known), NULL, taking);
  goes_on_cb (GTK_CHECK_BUTTON (taking->fields.goes_on), taking);
  taking->window = sw_dialog_form_new (parent, _("Medicine from elsewhere"), body, taking->fields.save);
  g_object_set_data_full (G_OBJECT (taking->window), "sw-taking", taking, taking_free);
  g_signal_connect (taking->fields.known, "notify::selected", G_CALLBACK (known_cb), taking);
  g_signal_connect (taking->fields.goes_on, "toggled", G_CALLBACK (goes_on_cb), taking);
  g_signal_connect (taking->fields.save, "clicked", G_CALLBACK (save_cb), taking);
  gtk_window_present (GTK_WINDOW (taking->window));
  gtk_widget_grab_focus (taking->fields.known);

  return taking->window;
}

const SwMedicineFields *
sw_medicine_dialog_fields (GtkWidget *window)
{
  Taking *taking = g_object_get_data (G_OBJECT (window), "sw-taking");

  return &taking->fields;
}
