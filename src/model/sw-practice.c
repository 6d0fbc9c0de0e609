/* sw-practice.c: settings with their defaults, people and adopted documents
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-dossier.h"

/* The default hours of a twice-daily medicine [ours]: the practice's own setting wins. */
#define DEFAULT_MORNING (8 * 60)
#define DEFAULT_EVENING (20 * 60)

const char *
sw_practice_setting (const SwPractice *practice, const char *key)
{
  const SwSetting *setting;

  for (guint i = 0; (setting = sw_facts_next (&practice->facts, SW_FACT_SETTING, &i)) != NULL;)
    if (g_str_equal (setting->key, key))
      return setting->value;
  return NULL;
}

gint64
sw_practice_setting_int (const SwPractice *practice, const char *key, gint64 otherwise)
{
  const char *value = sw_practice_setting (practice, key);
  gint64 number;

  if (value == NULL || !g_ascii_string_to_signed (value, 10, G_MININT64, G_MAXINT64, &number, NULL))
    return otherwise;
  return number;
}

int
sw_practice_morning (const SwPractice *practice)
{
  return (int) sw_practice_setting_int (practice, "hour-morning", DEFAULT_MORNING);
}

int
sw_practice_evening (const SwPractice *practice)
{
  return (int) sw_practice_setting_int (practice, "hour-evening", DEFAULT_EVENING);
}

const char *
sw_practice_zone (const SwPractice *practice)
{
  const char *zone = sw_practice_setting (practice, "zone");

  return zone ? zone : "UTC";
}

const SwPersonDetails *
sw_practice_person (const SwPractice *practice, gint64 person)
{
  const SwPersonDetails *details;

  for (guint i = 0; (details = sw_facts_next (&practice->facts, SW_FACT_PERSON_DETAILS, &i)) != NULL;)
    if (details->person == person)
      return details;
  return NULL;
}

const char *
sw_practice_person_name (const SwPractice *practice, gint64 person)
{
  const SwPersonDetails *details = sw_practice_person (practice, person);

  return details ? details->name : "?";
}

gint64
sw_practice_roles (const SwPractice *practice, gint64 person)
{
  const SwPersonDetails *details = sw_practice_person (practice, person);

  return details && details->active ? details->roles : 0;
}

const SwDocument *
sw_practice_adopted (const SwPractice *practice, SwDocumentKind kind, const char *doc_id)
{
  const SwAdoption *adoption;

  for (guint i = 0; (adoption = sw_facts_next (&practice->facts, SW_FACT_ADOPTION, &i)) != NULL;)
    if (adoption->doc_kind == (gint64) kind && g_str_equal (adoption->doc_id, doc_id))
      return sw_facts_by_id (&practice->facts, SW_FACT_DOCUMENT, adoption->document);
  return NULL;
}
