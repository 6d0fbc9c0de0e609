/* sw-patient-row.c: one line of the patient list, empty until it is loaded
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-patient-row-private.h"

#include "sw-dossier.h"

struct _SwPatientRow
{
  GObject parent_instance;

  gint64 patient;
  char *name;
  char *client;
  char *number;
  const char *stage; /* interned */
  SwMoment due;
  guint loaded : 1;
};

enum
{
  PROP_0,
  PROP_PATIENT,
  PROP_NAME,
  PROP_CLIENT,
  PROP_NUMBER,
  PROP_STAGE,
  PROP_DUE_DAY,
  PROP_DUE_MINUTE,
  PROP_LOADED,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (SwPatientRow, sw_patient_row, G_TYPE_OBJECT)

static void
sw_patient_row_finalize (GObject *object)
{
  SwPatientRow *self = SW_PATIENT_ROW (object);

  g_free (self->name);
  g_free (self->client);
  g_free (self->number);
  G_OBJECT_CLASS (sw_patient_row_parent_class)->finalize (object);
}

static void
sw_patient_row_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwPatientRow *self = SW_PATIENT_ROW (object);

  switch (id)
    {
    case PROP_PATIENT:
      g_value_set_int64 (value, self->patient);
      break;
    case PROP_NAME:
      g_value_set_string (value, self->name);
      break;
    case PROP_CLIENT:
      g_value_set_string (value, self->client);
      break;
    case PROP_NUMBER:
      g_value_set_string (value, self->number);
      break;
    case PROP_STAGE:
      g_value_set_string (value, self->stage);
      break;
    case PROP_DUE_DAY:
      g_value_set_int64 (value, self->due.day);
      break;
    case PROP_DUE_MINUTE:
      g_value_set_int64 (value, self->due.minute);
      break;
    case PROP_LOADED:
      g_value_set_boolean (value, self->loaded);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_patient_row_class_init (SwPatientRowClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->finalize = sw_patient_row_finalize;
  object_class->get_property = sw_patient_row_get_property;

  properties[PROP_PATIENT] = g_param_spec_int64 ("patient", NULL, NULL, 0, G_MAXINT64, 0, flags);
  properties[PROP_NAME] = g_param_spec_string ("name", NULL, NULL, NULL, flags);
  properties[PROP_CLIENT] = g_param_spec_string ("client", NULL, NULL, NULL, flags);
  properties[PROP_NUMBER] = g_param_spec_string ("number", NULL, NULL, NULL, flags);
  properties[PROP_STAGE] = g_param_spec_string ("stage", NULL, NULL, NULL, flags);
  properties[PROP_DUE_DAY] = g_param_spec_int64 ("due-day", NULL, NULL, G_MININT64, G_MAXINT64, SW_NO_DAY, flags);
  properties[PROP_DUE_MINUTE] = g_param_spec_int64 ("due-minute", NULL, NULL, G_MININT64, G_MAXINT64, 0, flags);
  properties[PROP_LOADED] = g_param_spec_boolean ("loaded", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
sw_patient_row_init (SwPatientRow *self)
{
  self->stage = "";
  self->due = SW_NO_MOMENT;
}

SwPatientRow *
sw_patient_row_new (gint64 patient)
{
  SwPatientRow *self = g_object_new (SW_TYPE_PATIENT_ROW, NULL);

  self->patient = patient;
  self->number = sw_patient_number (patient);
  return self;
}

static void
take_text (SwPatientRow *self, char **where, const char *text, int property)
{
  if (g_strcmp0 (*where, text) == 0)
    return;
  g_free (*where);
  *where = g_strdup (text);
  g_object_notify_by_pspec (G_OBJECT (self), properties[property]);
}

static void
take_due (SwPatientRow *self, SwDay day, int minute)
{
  gboolean day_changed = self->due.day != day;
  gboolean minute_changed = self->due.minute != minute;

  self->due = (SwMoment){ day, minute };
  if (day_changed)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DUE_DAY]);
  if (minute_changed)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DUE_MINUTE]);
}

void
sw_patient_row_fill (SwPatientRow *self, const SwListRow *row)
{
  g_object_freeze_notify (G_OBJECT (self));
  take_text (self, &self->name, row->name, PROP_NAME);
  take_text (self, &self->client, row->client, PROP_CLIENT);
  take_due (self, row->due_day, row->due_minute == SW_UNKNOWN ? 0 : (int) row->due_minute);
  if (self->stage != row->stage)
    {
      self->stage = row->stage;
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_STAGE]);
    }
  if (!self->loaded)
    {
      self->loaded = TRUE;
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LOADED]);
    }
  g_object_thaw_notify (G_OBJECT (self));
}

gint64
sw_patient_row_get_patient (SwPatientRow *self)
{
  return self->patient;
}

const char *
sw_patient_row_get_name (SwPatientRow *self)
{
  return self->name;
}

const char *
sw_patient_row_get_client (SwPatientRow *self)
{
  return self->client;
}

const char *
sw_patient_row_get_number (SwPatientRow *self)
{
  return self->number;
}

const char *
sw_patient_row_get_stage (SwPatientRow *self)
{
  return self->stage;
}

SwMoment
sw_patient_row_get_due (SwPatientRow *self)
{
  return self->due;
}

gboolean
sw_patient_row_get_loaded (SwPatientRow *self)
{
  return self->loaded;
}
