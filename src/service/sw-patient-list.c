/* sw-patient-list.c: the patients that match a search, as a list model
 *
 * Three things arrive on their own: a new spine, rows of it, and news of a change. Each request for a spine has a
 * generation, and an answer of an older one is dropped. Rows asked for in one turn of the main loop are asked of the
 * record together.
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sw-patient-list.h"

#include "sw-patient-row-private.h"

/* Rows kept although nobody holds them, so that scrolling back finds them loaded. */
#define KEPT_ROWS 1024

/* A range of more rows than this is replaced in two steps, removing and then adding: a selection model and the view
 * would ask for each added item to look for those that they knew (GTK 4.8). */
#define ONE_STEP_ROWS 512

struct _SwPatientList
{
  GObject parent_instance;

  SwRecord *record;
  GArray *spine;             /* gint64 */
  GHashTable *rows;          /* patient -> Held: every row that somebody holds */
  GQueue kept;               /* SwPatientRow, owned, newest first */
  GArray *wanted;            /* gint64: rows to load */
  guint asking;              /* idle source that will ask for them */
  char *search;
  SwShow show;
  guint generation;
  GCancellable *cancellable; /* of the spine being loaded; NULL: none is */
  guint again : 1;           /* something changed while a spine was being loaded */
};

enum
{
  PROP_0,
  PROP_SEARCH,
  PROP_SHOW,
  PROP_LOADING,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

enum
{
  REFRESHED,
  FAILED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void sw_patient_list_model_init (GListModelInterface *interface);

G_DEFINE_FINAL_TYPE_WITH_CODE (SwPatientList, sw_patient_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, sw_patient_list_model_init))

static void
fail (SwPatientList *self, const GError *error)
{
  if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    g_signal_emit (self, signals[FAILED], 0, error->message);
}

/* --- rows: the same object for a patient as long as anyone holds it --- */

typedef struct
{
  SwPatientList *list;
  gint64 patient;
  GObject *row; /* not owned; NULL once it is gone */
} Held;

static void
row_gone (gpointer data, GObject *row)
{
  Held *held = data;

  held->row = NULL;
  g_hash_table_remove (held->list->rows, &held->patient);
}

static void
held_free (gpointer data)
{
  Held *held = data;

  if (held->row != NULL)
    g_object_weak_unref (held->row, row_gone, held);
  g_free (held);
}

static SwPatientRow *
held_row (SwPatientList *self, gint64 patient)
{
  Held *held = g_hash_table_lookup (self->rows, &patient);

  return held ? SW_PATIENT_ROW (held->row) : NULL;
}

static void
hold (SwPatientList *self, gint64 patient, SwPatientRow *row)
{
  Held *held = g_new (Held, 1);

  *held = (Held){ self, patient, G_OBJECT (row) };
  g_object_weak_ref (held->row, row_gone, held);
  g_hash_table_insert (self->rows, &held->patient, held);
  g_queue_push_head (&self->kept, g_object_ref (row));
  if (self->kept.length > KEPT_ROWS)
    g_object_unref (g_queue_pop_tail (&self->kept));
}

static void
rows_arrived (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (SwPatientList) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = sw_record_load_rows_finish (SW_RECORD (source), result, &error);

  if (rows == NULL)
    fail (self, error);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const SwListRow *row = rows->pdata[i];
      SwPatientRow *held = held_row (self, row->patient);

      if (held != NULL)
        sw_patient_row_fill (held, row);
    }
}

static gboolean
ask_for_rows (gpointer data)
{
  SwPatientList *self = data;

  self->asking = 0;
  sw_record_load_rows_async (self->record, (const gint64 *) self->wanted->data, self->wanted->len, NULL, rows_arrived,
                             g_object_ref (self));
  g_array_set_size (self->wanted, 0);
  return G_SOURCE_REMOVE;
}

static void
want (SwPatientList *self, gint64 patient)
{
  g_array_append_val (self->wanted, patient);
  if (self->asking == 0)
    self->asking = g_idle_add_full (G_PRIORITY_DEFAULT, ask_for_rows, self, NULL);
}

/* --- list model --- */

static GType
get_item_type (GListModel *model)
{
  return SW_TYPE_PATIENT_ROW;
}

static guint
get_n_items (GListModel *model)
{
  return SW_PATIENT_LIST (model)->spine->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  SwPatientList *self = SW_PATIENT_LIST (model);
  SwPatientRow *row;
  gint64 patient;

  if (position >= self->spine->len)
    return NULL;
  patient = g_array_index (self->spine, gint64, position);
  row = held_row (self, patient);
  if (row != NULL)
    return g_object_ref (row);
  row = sw_patient_row_new (patient);
  hold (self, patient, row);
  want (self, patient);
  return row;
}

static void
sw_patient_list_model_init (GListModelInterface *interface)
{
  interface->get_item_type = get_item_type;
  interface->get_n_items = get_n_items;
  interface->get_item = get_item;
}

/* --- the spine --- */

static guint
common_start (const GArray *a, const GArray *b)
{
  guint most = MIN (a->len, b->len), n = 0;

  while (n < most && g_array_index (a, gint64, n) == g_array_index (b, gint64, n))
    n++;
  return n;
}

static guint
common_end (const GArray *a, const GArray *b, guint start)
{
  guint most = MIN (a->len, b->len) - start, n = 0;

  while (n < most && g_array_index (a, gint64, a->len - 1 - n) == g_array_index (b, gint64, b->len - 1 - n))
    n++;
  return n;
}

/* Takes the new spine; tells only what differs. */
static void
take_spine (SwPatientList *self, GArray *spine)
{
  guint start = common_start (self->spine, spine);
  guint end = common_end (self->spine, spine, start);
  guint removed = self->spine->len - start - end, added = spine->len - start - end;

  if (removed > 0 && added > ONE_STEP_ROWS)
    {
      g_array_remove_range (self->spine, start, removed);
      g_list_model_items_changed (G_LIST_MODEL (self), start, removed, 0);
      removed = 0;
    }
  g_array_unref (self->spine);
  self->spine = spine;
  if (removed > 0 || added > 0)
    g_list_model_items_changed (G_LIST_MODEL (self), start, removed, added);
  g_signal_emit (self, signals[REFRESHED], 0);
}

typedef struct
{
  SwPatientList *list;
  guint generation;
} Asked;

static void load_spine (SwPatientList *self);

static void
spine_arrived (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Asked *asked = data;
  g_autoptr (SwPatientList) self = asked->list;
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) spine = sw_record_load_spine_finish (SW_RECORD (source), result, &error);

  if (asked->generation != self->generation)
    return;
  g_clear_object (&self->cancellable);
  if (spine != NULL)
    take_spine (self, g_steal_pointer (&spine));
  else
    fail (self, error);
  if (self->again && self->cancellable == NULL)
    load_spine (self);
  else if (self->cancellable == NULL)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LOADING]);
}

static void
load_spine (SwPatientList *self)
{
  Asked *asked = g_new (Asked, 1);
  gboolean was_loading = self->cancellable != NULL;

  if (was_loading)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  self->again = FALSE;
  *asked = (Asked){ g_object_ref (self), ++self->generation };
  sw_record_load_spine_async (self->record, self->search, self->show, self->cancellable, spine_arrived, asked);
  if (!was_loading)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LOADING]);
}

/* Another act while a spine is on its way may have come too late for it. */
static void
refresh (SwPatientList *self)
{
  if (self->cancellable != NULL)
    self->again = TRUE;
  else
    load_spine (self);
}

static void
on_changed (SwRecord *record, gint64 patient, SwPatientList *self)
{
  if (held_row (self, patient) != NULL)
    want (self, patient);
  refresh (self);
}

static void
on_day_changed (SwRecord *record, SwPatientList *self)
{
  refresh (self);
}

/* --- object --- */

static void
sw_patient_list_dispose (GObject *object)
{
  SwPatientList *self = SW_PATIENT_LIST (object);

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->asking, g_source_remove);
  g_queue_clear_full (&self->kept, g_object_unref);
  g_clear_object (&self->record);
  G_OBJECT_CLASS (sw_patient_list_parent_class)->dispose (object);
}

static void
sw_patient_list_finalize (GObject *object)
{
  SwPatientList *self = SW_PATIENT_LIST (object);

  g_hash_table_unref (self->rows);
  g_array_unref (self->spine);
  g_array_unref (self->wanted);
  g_free (self->search);
  G_OBJECT_CLASS (sw_patient_list_parent_class)->finalize (object);
}

static void
sw_patient_list_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwPatientList *self = SW_PATIENT_LIST (object);

  switch (id)
    {
    case PROP_SEARCH:
      g_value_set_string (value, self->search);
      break;
    case PROP_SHOW:
      g_value_set_int (value, self->show);
      break;
    case PROP_LOADING:
      g_value_set_boolean (value, self->cancellable != NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_patient_list_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwPatientList *self = SW_PATIENT_LIST (object);

  switch (id)
    {
    case PROP_SEARCH:
      sw_patient_list_set_search (self, g_value_get_string (value));
      break;
    case PROP_SHOW:
      sw_patient_list_set_show (self, (SwShow) g_value_get_int (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_patient_list_class_init (SwPatientListClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->dispose = sw_patient_list_dispose;
  object_class->finalize = sw_patient_list_finalize;
  object_class->get_property = sw_patient_list_get_property;
  object_class->set_property = sw_patient_list_set_property;

  properties[PROP_SEARCH] = g_param_spec_string ("search", NULL, NULL, "", flags);
  properties[PROP_SHOW] = g_param_spec_int ("show", NULL, NULL, 0, SW_N_SHOWS - 1, SW_SHOW_ALL, flags);
  properties[PROP_LOADING] = g_param_spec_boolean ("loading", NULL, NULL, FALSE,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[REFRESHED]
      = g_signal_new ("refreshed", SW_TYPE_PATIENT_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[FAILED] = g_signal_new ("failed", SW_TYPE_PATIENT_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                  1, G_TYPE_STRING);
}

static void
sw_patient_list_init (SwPatientList *self)
{
  self->spine = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->wanted = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->rows = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, held_free);
  self->search = g_strdup ("");
}

SwPatientList *
sw_patient_list_new (SwRecord *record)
{
  SwPatientList *self = g_object_new (SW_TYPE_PATIENT_LIST, NULL);

  self->record = g_object_ref (record);
  g_signal_connect_object (record, "changed", G_CALLBACK (on_changed), self, 0);
  g_signal_connect_object (record, "day-changed", G_CALLBACK (on_day_changed), self, 0);
  load_spine (self);
  return self;
}

void
sw_patient_list_set_search (SwPatientList *self, const char *text)
{
  if (g_strcmp0 (self->search, text ? text : "") == 0)
    return;
  g_free (self->search);
  self->search = g_strdup (text ? text : "");
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SEARCH]);
  load_spine (self);
}

const char *
sw_patient_list_get_search (SwPatientList *self)
{
  return self->search;
}

void
sw_patient_list_set_show (SwPatientList *self, SwShow show)
{
  if (self->show == show)
    return;
  self->show = show;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW]);
  load_spine (self);
}

SwShow
sw_patient_list_get_show (SwPatientList *self)
{
  return self->show;
}

gboolean
sw_patient_list_get_loading (SwPatientList *self)
{
  return self->cancellable != NULL;
}

gboolean
sw_patient_list_find (SwPatientList *self, gint64 patient, guint *position)
{
  for (guint i = 0; i < self->spine->len; i++)
    if (g_array_index (self->spine, gint64, i) == patient)
      {
        *position = i;
        return TRUE;
      }
  return FALSE;
}
