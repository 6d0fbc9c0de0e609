/* sw-protocol-private.h: the parts in which a protocol is read
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sw-protocol.h"
#include "sw-reader-private.h"

G_BEGIN_DECLS

/* <dose>: strength, rules, tiers, limits; refuses limits that contradict one another. */
void sw_protocol_read_dose (SwReader *reader, SwProtocol *protocol);

/* <selection>: regions, ages, what answers mean. */
void sw_protocol_read_selection (SwReader *reader, SwProtocol *protocol);

/* <medicines> and <gate>. @medicines may be NULL: then names, ranges and intervals aren't checked. */
void sw_protocol_read_medicines (SwReader *reader, SwProtocol *protocol, const GPtrArray *medicines);
void sw_protocol_read_gate (SwReader *reader, SwProtocol *protocol);

/* <after>: visits, score, second injection. */
void sw_protocol_read_after (SwReader *reader, SwProtocol *protocol);

void sw_medicine_group_free (SwMedicineGroup *group);
void sw_ruling_free (SwRuling *ruling);

G_END_DECLS
