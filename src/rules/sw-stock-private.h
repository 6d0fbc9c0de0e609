/* sw-stock-private.h: what the practice has on its shelf of a substance, and which of it makes a dose
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-dossier.h"
#include "sw-medicine.h"
#include "sw-tablet.h"

G_BEGIN_DECLS

typedef struct
{
  GArray *tablets; /* gint64 ug */
  GArray *liquids; /* gint64 ug in one mL */
} SwStock;

/* The practice's own strengths of the substance (setting strengths.SUBSTANCE), else those of its document. */
SwStock *sw_stock_new (const SwPractice *practice, const SwMedicine *medicine);
void sw_stock_free (SwStock *stock);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwStock, sw_stock_free)

/* The least per kg that may be given: the target where that is a floor. SW_UNKNOWN: the document has none. */
gint64 sw_stock_least (const SwMedicine *medicine);

/* FALSE: nothing in stock fits, or the document has no range for a dose. */
gboolean sw_stock_choose (const SwPractice *practice, const SwMedicine *medicine, gint64 ug_per_kg, gint64 grams,
                          SwTabletChoice *choice) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
