/* sw-adoption-dialog.h: look at a document, and adopt it together with those it needs
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* `documents`: SwDocumentHead of `books`, the first the one that was chosen; each gets its list of figures, and each
 * but the first may be left out. */
void sw_adoption_dialog_adopt (GtkWidget *parent, SwRecord *record, gint64 person, SwBooks *books,
                               const GPtrArray *documents);
void sw_adoption_dialog_look (GtkWidget *parent, SwBooks *books, const SwDocumentHead *document);

G_END_DECLS
