/* sw-dialogs.h: the few questions that stand in a window of their own
 *
 * GTK 4.8's dialogs are fenced in here, so that a move to GtkAlertDialog and GtkFileDialog touches one file. No answer
 * is a default: Enter at the end of a caliper's burst must answer nothing.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*SwAnswered) (gboolean yes, gpointer data);
typedef void (*SwReasoned) (const char *reason, gpointer data); /* NULL: given up */
typedef void (*SwFolderChosen) (GFile *folder, gpointer data);  /* NULL: given up */
typedef SwFolderChosen SwFileChosen;

/* A question with one act and [Cancel]. `data` must outlive the dialog: pass a widget of its parent window. */
void sw_dialog_ask (GtkWidget *parent, const char *heading, const char *body, const char *act, SwAnswered answered,
                    gpointer data);
/* Asks for a written reason, which can't be empty. */
void sw_dialog_reason (GtkWidget *parent, const char *heading, const char *body, const char *act, SwReasoned reasoned,
                       gpointer data);
void sw_dialog_folder (GtkWidget *parent, const char *heading, const char *act, SwFolderChosen chosen, gpointer data);
/* Where to save a file; an existing one is asked about. */
void sw_dialog_save (GtkWidget *parent, const char *heading, const char *name, SwFileChosen chosen, gpointer data);

/* A window for a form: titled, modal, closed by Escape; the form's own buttons go into `buttons`. Guarded against a
 * caliper's burst. */
GtkWidget *sw_dialog_form_new (GtkWidget *parent, const char *title, GtkWidget *body, GtkWidget *buttons);

G_END_DECLS
