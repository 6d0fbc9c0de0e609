/* sw-documents-page.h: protocols, medicines and interactions: what is adopted, by whom, and what can be
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_DOCUMENTS_PAGE (sw_documents_page_get_type ())
G_DECLARE_FINAL_TYPE (SwDocumentsPage, sw_documents_page, SW, DOCUMENTS_PAGE, GtkWidget)

/* As often as the practice or the person at the desk changes. */
void sw_documents_page_show (SwDocumentsPage *self, SwRecord *record, gint64 person);

G_END_DECLS
