/* sw-dialogs.c: the few questions that stand in a window of their own
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-dialogs.h"

#include "sw-form.h"
#include "sw-wedge-guard.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  GCallback callback;
  gpointer data;
  GtkWidget *entry; /* of a reason */
} Question;

static GtkWindow *
window_of (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  return GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL;
}

/* The dialog's own button would be named twice over. */
static void
add_act (GtkWidget *dialog, const char *act, int response)
{
  GtkWidget *button = sw_button_new (act);

  gtk_widget_set_valign (button, GTK_ALIGN_FILL);
  gtk_dialog_add_action_widget (GTK_DIALOG (dialog), button, response);
}

static GtkWidget *
message_new (GtkWidget *parent, const char *heading, const char *body, const char *act)
{
  GtkWidget *dialog = gtk_message_dialog_new (window_of (parent), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s", heading);

  if (body != NULL)
    gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", body);
  add_act (dialog, _("Cancel"), GTK_RESPONSE_CANCEL);
  add_act (dialog, act, GTK_RESPONSE_ACCEPT);
  sw_wedge_guard_attach (dialog, NULL, NULL);

  return dialog;
}

static void
ask_response_cb (GtkDialog *dialog, int response, Question *question)
{
  SwAnswered answered = (SwAnswered) question->callback;
  gpointer data = question->data;

  gtk_window_destroy (GTK_WINDOW (dialog));
  answered (response == GTK_RESPONSE_ACCEPT, data);
}

static Question *
question_new (GtkWidget *dialog, GCallback callback, gpointer data)
{
  Question *question = g_new0 (Question, 1);

  question->callback = callback;
  question->data = data;
  g_object_set_data_full (G_OBJECT (dialog), "sw-question", question, g_free);

  return question;
}

void
sw_dialog_ask (GtkWidget *parent, const char *heading, const char *body, const char *act, SwAnswered answered,
               gpointer data)
{
  GtkWidget *dialog = message_new (parent, heading, body, act);

  g_signal_connect (dialog, "response", G_CALLBACK (ask_response_cb),
                    question_new (dialog, G_CALLBACK (answered), data));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
reason_response_cb (GtkDialog *dialog, int response, Question *question)
{
  g_autofree char *reason = response == GTK_RESPONSE_ACCEPT ? sw_field_dup_text (question->entry) : NULL;
  SwReasoned reasoned = (SwReasoned) question->callback;
  gpointer data = question->data;

  gtk_window_destroy (GTK_WINDOW (dialog));
  reasoned (reason, data);
}

static void
reason_changed_cb (GtkEditable *entry, GtkDialog *dialog)
{
  g_autofree char *reason = sw_field_dup_text (GTK_WIDGET (entry));

  gtk_dialog_set_response_sensitive (dialog, GTK_RESPONSE_ACCEPT, reason != NULL);
}

void
sw_dialog_reason (GtkWidget *parent, const char *heading, const char *body, const char *act, SwReasoned reasoned,
                  gpointer data)
{
  GtkWidget *dialog = message_new (parent, heading, body, act);
  GtkWidget *form = sw_form_new ();
  Question *question = question_new (dialog, G_CALLBACK (reasoned), data);

  question->entry = sw_text_field_new (40);
  sw_form_add (GTK_GRID (form), _("_Reason"), question->entry);
  gtk_box_append (GTK_BOX (gtk_message_dialog_get_message_area (GTK_MESSAGE_DIALOG (dialog))), form);
  gtk_dialog_set_response_sensitive (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT, FALSE);
  g_signal_connect (question->entry, "changed", G_CALLBACK (reason_changed_cb), dialog);
  g_signal_connect (dialog, "response", G_CALLBACK (reason_response_cb), question);
  gtk_window_present (GTK_WINDOW (dialog));
  gtk_widget_grab_focus (question->entry);
}

static void
folder_response_cb (GtkNativeDialog *chooser, int response, Question *question)
{
  g_autoptr (GFile) folder = NULL;
  SwFolderChosen chosen = (SwFolderChosen) question->callback;
  gpointer data = question->data;

  if (response == GTK_RESPONSE_ACCEPT)
    folder = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_object_unref (chooser); /* nobody else holds a native dialog */
  chosen (folder, data);
}

static void
show_chooser (GtkFileChooserNative *chooser, SwFolderChosen chosen, gpointer data)
{
  Question *question = g_new0 (Question, 1);

  question->callback = G_CALLBACK (chosen);
  question->data = data;
  g_object_set_data_full (G_OBJECT (chooser), "sw-question", question, g_free);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (folder_response_cb), question);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
sw_dialog_folder (GtkWidget *parent, const char *heading, const char *act, SwFolderChosen chosen, gpointer data)
{
  show_chooser (gtk_file_chooser_native_new (heading, window_of (parent), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, act,
                                             _("_Cancel")),
                chosen, data);
}

void
sw_dialog_save (GtkWidget *parent, const char *heading, const char *name, SwFileChosen chosen, gpointer data)
{
  GtkFileChooserNative *chooser
    = gtk_file_chooser_native_new (heading, window_of (parent), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), _("_Cancel"));

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  show_chooser (chooser, chosen, data);
}

static gboolean
escape_cb (GtkWidget *widget, GVariant *arguments, gpointer data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
close_on_escape (GtkWidget *window)
{
  GtkEventController *shortcuts = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (shortcuts),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_callback_action_new (escape_cb, NULL, NULL)));
  gtk_widget_add_controller (window, shortcuts);
}

GtkWidget *
sw_dialog_form_new (GtkWidget *parent, const char *title, GtkWidget *body, GtkWidget *buttons)
{
  GtkWidget *window = gtk_window_new ();
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);

  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (window), window_of (parent));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  gtk_widget_add_css_class (content, "page-body");
  gtk_widget_set_halign (buttons, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (content), body);
  gtk_box_append (GTK_BOX (content), buttons);
  gtk_window_set_child (GTK_WINDOW (window), content);
  close_on_escape (window);
  sw_wedge_guard_attach (window, NULL, NULL);

  return window;
}
