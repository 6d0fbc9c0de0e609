/* sw-people-page.h: who works here, and in which roles; the practice's name and address
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-record.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define SW_TYPE_PEOPLE_PAGE (sw_people_page_get_type ())
G_DECLARE_FINAL_TYPE (SwPeoplePage, sw_people_page, SW, PEOPLE_PAGE, GtkWidget)

/* As often as the practice or the person at the desk changes. */
void sw_people_page_show (SwPeoplePage *self, SwRecord *record, gint64 person);

G_END_DECLS
