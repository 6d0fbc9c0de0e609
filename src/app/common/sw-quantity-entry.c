/* sw-quantity-entry.c: a field for one exact quantity, a day or a time
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-quantity-entry.h"

#include "sw-error.h"
#include "sw-quantity.h"

#include <glib/gi18n-lib.h>
#include <string.h>

struct _SwQuantityEntry
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *row;
  GtkWidget *entry;
  GtkWidget *unit;
  GtkWidget *own_message;

  GtkLabel *message; /* own_message or one of the form */
  SwQuantity quantity;
  char *set_text; /* as last set, to tell what was typed since */
  guint required : 1;
  guint setting : 1;
};

G_DEFINE_FINAL_TYPE (SwQuantityEntry, sw_quantity_entry, GTK_TYPE_WIDGET)

enum { PROP_QUANTITY = 1, PROP_UNIT_VISIBLE, PROP_REQUIRED, N_PROPERTIES };
enum { CHANGED, ACCEPTED, LEFT, N_SIGNALS };

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

#define STRENGTH_DIGITS 3 /* of a mg */
#define UG_PER_MG 1000

typedef gboolean (*Parser) (const char *text, gint64 *value, GError **error);
typedef char *(*Formatter) (gint64 value);

static gboolean
parse_time (const char *text, gint64 *value, GError **error)
{
  int minute;

  if (!sw_time_parse (text, &minute, error))
    return FALSE;
  *value = minute;
  return TRUE;
}

/* A year and month mean the last day of that month. */
static gboolean
parse_expiry (const char *text, gint64 *value, GError **error)
{
  g_autofree char *first = g_strdup_printf ("%s-01", text);
  SwDay day;

  if (!sw_day_parse (first, &day, NULL))
    return sw_day_parse (text, value, error);
  *value = sw_day_add_days (sw_day_add_months (day, 1), -1);
  return TRUE;
}

static gboolean
parse_strength (const char *text, gint64 *value, GError **error)
{
  g_autofree char *number = g_strdelimit (g_strdup (text), ",", '.');
  char *unit = g_strstr_len (number, -1, "mg/mL");

  if (unit != NULL)
    *unit = '\0';
  return sw_decimal_parse (g_strstrip (number), STRENGTH_DIGITS, value, error);
}

static char *
format_strength (gint64 value)
{
  return sw_ratio_format_significant (sw_ratio (value, UG_PER_MG), 1);
}

static gboolean
parse_whole (const char *text, gint64 *value, GError **error)
{
  return sw_decimal_parse (text, 0, value, error);
}

/* A comma is a decimal mark too, as everywhere where people type. */
static gboolean
parse_thousandths (const char *text, gint64 *value, GError **error)
{
  g_autofree char *number = g_strdelimit (g_strstrip (g_strdup (text)), ",", '.');

  if (!sw_decimal_parse (number, 3, value, error))
    return FALSE;
  if (*value > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INPUT, _("“%s” is not over 0."), text);
  return FALSE;
}

/* Without zeros at the end: 12.5, 20. */
static char *
format_thousandths (gint64 value)
{
  char *text = sw_ratio_format (sw_ratio (value, 1000), 3);
  gsize length = strlen (text);

  while (text[length - 1] == '0')
    length--;
  text[text[length - 1] == '.' ? length - 1 : length] = '\0';
  return text;
}

static char *
format_time (gint64 value)
{
  return sw_time_format ((int) value);
}

static char *
format_whole (gint64 value)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT, value);
}

static const struct
{
  Parser parse;
  Formatter format;
  const char *unit; /* international symbols are not translated */
  const char *hint; /* shown in an empty field */
  int width;
} kinds[SW_N_QUANTITIES] = {
  [SW_QUANTITY_LENGTH] = { sw_length_parse, sw_length_format, "mm", NULL, 6 },
  [SW_QUANTITY_MASS] = { sw_mass_parse, sw_mass_format, "kg", NULL, 6 },
  [SW_QUANTITY_DRUG] = { sw_drug_volume_parse, sw_drug_volume_format, "mL", NULL, 6 },
  [SW_QUANTITY_DAY] = { sw_day_parse, sw_day_format, NULL, N_("YYYY-MM-DD"), 11 },
  [SW_QUANTITY_TIME] = { parse_time, format_time, NULL, N_("HH:MM"), 6 },
  [SW_QUANTITY_EXPIRY] = { parse_expiry, sw_day_format, NULL, N_("YYYY-MM"), 11 },
  [SW_QUANTITY_STRENGTH] = { parse_strength, format_strength, "mg/mL", NULL, 5 },
  [SW_QUANTITY_DECIMAL] = { parse_thousandths, format_thousandths, NULL, NULL, 6 },
  [SW_QUANTITY_WHOLE] = { parse_whole, format_whole, NULL, NULL, 5 },
};

static void
show_message (SwQuantityEntry *self, const char *sentence, gboolean wrong)
{
  if (self->message == NULL)
    return;
  gtk_label_set_text (self->message, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->message), sentence != NULL);
  if (wrong)
    {
      gtk_widget_add_css_class (self->entry, "error");
      gtk_widget_remove_css_class (GTK_WIDGET (self->message), "question");
    }
  else
    {
      gtk_widget_remove_css_class (self->entry, "error");
      gtk_widget_add_css_class (GTK_WIDGET (self->message), "question");
    }
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static void
changed_cb (GtkEditable *editable, SwQuantityEntry *self)
{
  if (self->setting)
    return;
  show_message (self, NULL, FALSE);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
activate_cb (GtkEntry *entry, SwQuantityEntry *self)
{
  g_autoptr (GError) error = NULL;
  gint64 value;

  if (sw_quantity_entry_peek (self, &value, &error))
    g_signal_emit (self, signals[ACCEPTED], 0, value);
  else
    show_message (self, error->message, TRUE);
}

/* Leaving a field says what is wrong with it; an empty field is no mistake yet. */
static void
leave_cb (GtkEventControllerFocus *controller, SwQuantityEntry *self)
{
  g_autoptr (GError) error = NULL;
  gint64 value;

  if (sw_quantity_entry_get_text (self)[0] != '\0' && !sw_quantity_entry_peek (self, &value, &error))
    show_message (self, error->message, TRUE);
  g_signal_emit (self, signals[LEFT], 0);
}

static gboolean
sw_quantity_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (SW_QUANTITY_ENTRY (widget)->entry);
}

static void
sw_quantity_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwQuantityEntry *self = SW_QUANTITY_ENTRY (object);

  switch (id)
    {
    case PROP_QUANTITY:
      self->quantity = g_value_get_int (value);
      break;
    case PROP_UNIT_VISIBLE:
      sw_quantity_entry_set_unit_visible (self, g_value_get_boolean (value));
      break;
    case PROP_REQUIRED:
      sw_quantity_entry_set_required (self, g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_quantity_entry_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwQuantityEntry *self = SW_QUANTITY_ENTRY (object);

  switch (id)
    {
    case PROP_QUANTITY:
      g_value_set_int (value, self->quantity);
      break;
    case PROP_UNIT_VISIBLE:
      g_value_set_boolean (value, gtk_widget_get_visible (self->unit));
      break;
    case PROP_REQUIRED:
      g_value_set_boolean (value, self->required);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_quantity_entry_constructed (GObject *object)
{
  SwQuantityEntry *self = SW_QUANTITY_ENTRY (object);

  G_OBJECT_CLASS (sw_quantity_entry_parent_class)->constructed (object);
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), kinds[self->quantity].width);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), kinds[self->quantity].width);
  if (kinds[self->quantity].hint != NULL)
    gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), _(kinds[self->quantity].hint));
  gtk_label_set_text (GTK_LABEL (self->unit), kinds[self->quantity].unit != NULL ? kinds[self->quantity].unit : "");
  gtk_widget_set_visible (self->unit, kinds[self->quantity].unit != NULL);
}

static void
sw_quantity_entry_dispose (GObject *object)
{
  SwQuantityEntry *self = SW_QUANTITY_ENTRY (object);

  if (self->message != NULL && self->message != GTK_LABEL (self->own_message))
    g_object_remove_weak_pointer (G_OBJECT (self->message), (gpointer *) &self->message);
  self->message = NULL;
  g_clear_pointer (&self->row, gtk_widget_unparent);
  g_clear_pointer (&self->own_message, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_quantity_entry_parent_class)->dispose (object);
}

static void
sw_quantity_entry_finalize (GObject *object)
{
  g_free (SW_QUANTITY_ENTRY (object)->set_text);
  G_OBJECT_CLASS (sw_quantity_entry_parent_class)->finalize (object);
}

static void
sw_quantity_entry_class_init (SwQuantityEntryClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_quantity_entry_set_property;
  object_class->get_property = sw_quantity_entry_get_property;
  object_class->constructed = sw_quantity_entry_constructed;
  object_class->dispose = sw_quantity_entry_dispose;
  object_class->finalize = sw_quantity_entry_finalize;
  widget_class->grab_focus = sw_quantity_entry_grab_focus;

  properties[PROP_QUANTITY] = g_param_spec_int ("quantity", NULL, NULL, 0, SW_N_QUANTITIES - 1, 0,
                                                flags | G_PARAM_CONSTRUCT_ONLY);
  properties[PROP_UNIT_VISIBLE] = g_param_spec_boolean ("unit-visible", NULL, NULL, TRUE, flags);
  properties[PROP_REQUIRED] = g_param_spec_boolean ("required", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  signals[ACCEPTED] = g_signal_new ("accepted", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[LEFT] = g_signal_new ("left", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                0);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "quantity");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
sw_quantity_entry_init (SwQuantityEntry *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                                  GTK_ORIENTATION_VERTICAL);
  self->row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  self->entry = gtk_entry_new ();
  self->unit = gtk_label_new (NULL);
  self->own_message = gtk_label_new (NULL);
  self->message = GTK_LABEL (self->own_message);
  self->set_text = g_strdup ("");
  gtk_widget_add_css_class (self->unit, "unit");
  gtk_widget_add_css_class (self->own_message, "field-message");
  gtk_widget_set_visible (self->own_message, FALSE);
  gtk_label_set_wrap (self->message, TRUE);
  gtk_label_set_xalign (self->message, 0);
  gtk_box_append (GTK_BOX (self->row), self->entry);
  gtk_box_append (GTK_BOX (self->row), self->unit);
  gtk_widget_set_parent (self->row, GTK_WIDGET (self));
  gtk_widget_set_parent (self->own_message, GTK_WIDGET (self));
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_RELATION_DESCRIBED_BY, self->own_message,
                                  NULL,
                                  -1);

  g_signal_connect (self->entry, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect (self->entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

GtkWidget *
sw_quantity_entry_new (SwQuantity quantity, const char *name)
{
  SwQuantityEntry *self = g_object_new (SW_TYPE_QUANTITY_ENTRY, "quantity", quantity, NULL);

  sw_quantity_entry_set_name (self, name);
  return GTK_WIDGET (self);
}

void
sw_quantity_entry_set_name (SwQuantityEntry *self, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

const char *
sw_quantity_entry_get_text (SwQuantityEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

void
sw_quantity_entry_set_text (SwQuantityEntry *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

gboolean
sw_quantity_entry_peek (SwQuantityEntry *self, gint64 *value, GError **error)
{
  return kinds[self->quantity].parse (sw_quantity_entry_get_text (self), value, error);
}

gboolean
sw_quantity_entry_take (SwQuantityEntry *self, gint64 *value)
{
  g_autoptr (GError) error = NULL;

  if (sw_quantity_entry_get_text (self)[0] == '\0' && !self->required)
    {
      *value = SW_UNKNOWN;
      return TRUE;
    }
  if (sw_quantity_entry_peek (self, value, &error))
    return TRUE;
  show_message (self, error->message, TRUE);
  return FALSE;
}

void
sw_quantity_entry_set_value (SwQuantityEntry *self, gint64 value)
{
  g_autofree char *text = value != SW_UNKNOWN ? kinds[self->quantity].format (value) : g_strdup ("");

  self->setting = TRUE;
  sw_quantity_entry_set_text (self, text);
  self->setting = FALSE;
  g_free (self->set_text);
  self->set_text = g_steal_pointer (&text);
  show_message (self, NULL, FALSE);
}

void
sw_quantity_entry_offer_value (SwQuantityEntry *self, gint64 value)
{
  gboolean focused = gtk_widget_get_state_flags (self->entry) & GTK_STATE_FLAG_FOCUS_WITHIN;

  if (!focused && !sw_quantity_entry_is_edited (self))
    sw_quantity_entry_set_value (self, value);
}

gboolean
sw_quantity_entry_is_edited (SwQuantityEntry *self)
{
  return !g_str_equal (sw_quantity_entry_get_text (self), self->set_text);
}

void
sw_quantity_entry_set_required (SwQuantityEntry *self, gboolean required)
{
  self->required = !!required;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_REQUIRED, required, -1);
}

void
sw_quantity_entry_set_error (SwQuantityEntry *self, const char *sentence)
{
  show_message (self, sentence, sentence != NULL);
}

void
sw_quantity_entry_set_question (SwQuantityEntry *self, const char *question)
{
  show_message (self, question, FALSE);
}

void
sw_quantity_entry_set_message_label (SwQuantityEntry *self, GtkLabel *label)
{
  if (self->message != GTK_LABEL (self->own_message))
    g_clear_weak_pointer (&self->message);
  self->message = label;
  g_object_add_weak_pointer (G_OBJECT (label), (gpointer *) &self->message);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_RELATION_DESCRIBED_BY, label, NULL, -1);
}

void
sw_quantity_entry_set_width_chars (SwQuantityEntry *self, int width)
{
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), width);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), width);
}

void
sw_quantity_entry_set_unit_visible (SwQuantityEntry *self, gboolean visible)
{
  gtk_widget_set_visible (self->unit, visible);
}

SwQuantityEntry *
sw_quantity_entry_around (GtkWidget *widget)
{
  GtkWidget *around = widget != NULL ? gtk_widget_get_ancestor (widget, SW_TYPE_QUANTITY_ENTRY) : NULL;

  return around != NULL ? SW_QUANTITY_ENTRY (around) : NULL;
}
