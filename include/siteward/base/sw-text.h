/* sw-text.h: search folding, canonical text and code names.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * sw_text_fold:
 * @text: valid UTF-8
 *
 * What a search compares: lower case, without accents, runs of white space as one space and none at the ends.
 *
 * Returns: (transfer full): the folded text
 */
char *sw_text_fold (const char *text);

/* One line for showing in a sentence: valid UTF-8, no control characters, at most @most characters and an ellipsis. */
char *sw_text_excerpt (const char *text, guint most);

/* Canonical text: each field is its length in bytes, ":", its bytes and ","; a missing one is "-,". So no two different
 * rows have the same text, whatever the fields hold. */
void sw_text_append_field (GString *out, const char *value);
void sw_text_append_bytes (GString *out, const void *data, gsize length);
void sw_text_append_int (GString *out, gint64 value);

/* The index of @code in the NULL-terminated @codes, or -1: enums in files and on the command line are codes. */
int sw_code_index (const char *const *codes, const char *code);

G_END_DECLS
