/* sw-error.h: the one error domain of the core, coded by what the caller can do about it.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define SW_ERROR (sw_error_quark ())

/**
 * SwError:
 * @SW_ERROR_INPUT: what was typed or handed in can't be taken; show the sentence beside the field (command line: exit 2)
 * @SW_ERROR_DOCUMENT: a document doesn't parse or contradicts itself; the sentence begins with file:line:column (exit 2)
 * @SW_ERROR_REFUSED: a clinical limit or gate refuses; findings say which (exit 3)
 * @SW_ERROR_ROLE: the person's roles don't allow the act (exit 4)
 * @SW_ERROR_CONFLICT: somebody else changed the same row first; read again and decide (exit 4)
 * @SW_ERROR_BUSY: another program holds the record; try again (exit 4)
 * @SW_ERROR_DISK: the disk is full, read-only or failing; nothing was saved (exit 4)
 * @SW_ERROR_RECORD: not a record, a newer one, a damaged one, or one that can't be used this way (exit 4)
 *
 * Cancelling is %G_IO_ERROR_CANCELLED. Every message is a whole sentence that a vet understands.
 */
typedef enum
{
  SW_ERROR_INPUT,
  SW_ERROR_DOCUMENT,
  SW_ERROR_REFUSED,
  SW_ERROR_ROLE,
  SW_ERROR_CONFLICT,
  SW_ERROR_BUSY,
  SW_ERROR_DISK,
  SW_ERROR_RECORD,
} SwError;

GQuark sw_error_quark (void);

G_END_DECLS
