/* sw-quantity.h: exact quantities, as they are typed and as they are shown (domain 2).
 *
 * Inside: lengths in 0.01 mm, masses in g, drug volumes in nL. A parser takes one number with "." or "," as its decimal
 * mark and a unit that may be left out. It refuses with SW_ERROR_INPUT and a sentence: empty, not a number, negative,
 * zero, not finite, unknown unit, more than one number, thousands separators, exponents, signs, more digits than the
 * inside unit holds, a length outside 0.5-300 mm, a mass outside 0.5-120 kg. Out-arguments stay as they were then.
 *
 * Formats have no unit: the caller's sentence, column title or JSON key carries it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-unknown.h"
#include "sw-wide.h"

G_BEGIN_DECLS

/* (0.01 mm)^2 in one mm2; (0.01 mm)^3 in one cm3; g in one kg; nL in one mL. */
#define SW_AREA_UNITS_PER_MM2 G_GINT64_CONSTANT (10000)
#define SW_VOLUME_UNITS_PER_CM3 G_GINT64_CONSTANT (1000000000)
#define SW_GRAMS_PER_KG G_GINT64_CONSTANT (1000)
#define SW_NL_PER_ML G_GINT64_CONSTANT (1000000)

/* "21.4", "21,4", "21.4 mm", "2.14 cm": 2140. mm when no unit is given. */
gboolean sw_length_parse (const char *text, gint64 *hundredths_mm, GError **error);

/* "21.4x18.0x8.9 mm": three axes in the order typed, parted by x, X, * or the times sign. A unit after the last axis
 * holds for the group; a unit after an earlier one must be the same. */
gboolean sw_reading_parse (const char *text, gint64 axes[3], GError **error);

/* "24.6", "24,6 kg", "24600 g", "54.2 lb" (0.45359237 kg exactly, floored to the gram). kg when no unit is given. */
gboolean sw_mass_parse (const char *text, gint64 *grams, GError **error);

/* "0.85", "0.85 mL": 850000; over 0 and at most 100 mL. */
gboolean sw_drug_volume_parse (const char *text, gint64 *nl, GError **error);

/**
 * sw_decimal_parse:
 * @text: digits, or digits "." digits; no sign, no space, no unit
 * @digits: how many digits after the point the inside unit holds, 0 to 9
 * @value: (out): the number times ten to the power @digits
 *
 * The exact decimals of documents ("0.15" with 6 digits: 150000). Zero is a number here.
 */
gboolean sw_decimal_parse (const char *text, guint digits, gint64 *value, GError **error);

/* A whole number, which may have a sign: "-2", "+4", "7". */
gboolean sw_integer_parse (const char *text, gint64 *value, GError **error);

/* mm, all digits held, at least one decimal: "21.4", "21.43". */
char *sw_length_format (gint64 hundredths_mm);

/* "21.4 x 18.0 x 8.9" with times signs. */
char *sw_reading_format (const gint64 axes[3]);

/* kg, one or two decimals: "24.6", "24.58". */
char *sw_mass_format (gint64 grams);

/* mL, two decimals: "0.85". */
char *sw_drug_volume_format (gint64 nl);

/* cm3, three significant digits: "1.71". */
char *sw_volume_format (SwRatio cm3);

G_END_DECLS
