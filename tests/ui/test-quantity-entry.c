/* test-quantity-entry.c: what is typed, accepted, refused, asked about and kept
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ui-fixture.h"

#include "sw-quantity-entry.h"

typedef struct
{
  GtkWidget *window;
  SwQuantityEntry *entry;
  GtkEntry *text;
  gint64 accepted;
  guint changed;
} Field;

static void
accepted_cb (SwQuantityEntry *entry, gint64 value, Field *field)
{
  field->accepted = value;
}

static void
changed_cb (SwQuantityEntry *entry, Field *field)
{
  field->changed++;
}

static Field *
field_new (SwQuantity quantity)
{
  Field *field = g_new0 (Field, 1);

  field->window = gtk_window_new ();
  field->entry = SW_QUANTITY_ENTRY (sw_quantity_entry_new (quantity, "length, reading 1"));
  field->text = GTK_ENTRY (ui_find_type (GTK_WIDGET (field->entry), GTK_TYPE_ENTRY));
  field->accepted = SW_UNKNOWN;
  gtk_window_set_child (GTK_WINDOW (field->window), GTK_WIDGET (field->entry));
  gtk_window_present (GTK_WINDOW (field->window));
  g_signal_connect (field->entry, "accepted", G_CALLBACK (accepted_cb), field);
  g_signal_connect (field->entry, "changed", G_CALLBACK (changed_cb), field);

  return field;
}

static void
field_free (Field *field)
{
  gtk_window_destroy (GTK_WINDOW (field->window));
  g_free (field);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Field, field_free)

static void
type_and_enter (Field *field, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (field->text), text);
  g_signal_emit_by_name (field->text, "activate");
}

START_TEST (the_same_reading)
{
  static const char *const texts[] = { "21.4", "21,4", "2.14 cm", "21.4mm" };
  g_autoptr (Field) field = field_new (SW_QUANTITY_LENGTH);

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      field->accepted = SW_UNKNOWN;
      type_and_enter (field, texts[i]);
      ck_assert_int_eq (field->accepted, 2140);
      ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), texts[i]);
    }
  sw_quantity_entry_set_value (field->entry, 2140);
  ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), "21.4");
}
END_TEST

START_TEST (a_refusal_keeps_the_text)
{
  g_autoptr (Field) field = field_new (SW_QUANTITY_LENGTH);

  type_and_enter (field, "21.4 18.0");
  ck_assert_int_eq (field->accepted, SW_UNKNOWN);
  ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), "21.4 18.0");
  gtk_test_accessible_assert_state (field->text, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  ck_assert (gtk_widget_has_css_class (GTK_WIDGET (field->text), "error"));
  gtk_editable_set_text (GTK_EDITABLE (field->text), "21.4");
  gtk_test_accessible_assert_state (field->text, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_FALSE);
  ck_assert (!gtk_widget_has_css_class (GTK_WIDGET (field->text), "error"));
}
END_TEST

START_TEST (empty_is_wrong_only_where_required)
{
  g_autoptr (Field) field = field_new (SW_QUANTITY_MASS);
  gint64 value = 1;

  ck_assert (sw_quantity_entry_take (field->entry, &value));
  ck_assert_int_eq (value, SW_UNKNOWN);
  sw_quantity_entry_set_required (field->entry, TRUE);
  ck_assert (!sw_quantity_entry_take (field->entry, &value));
  gtk_test_accessible_assert_state (field->text, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
}
END_TEST

START_TEST (a_question_is_no_refusal)
{
  g_autoptr (Field) field = field_new (SW_QUANTITY_MASS);
  gint64 value;

  gtk_editable_set_text (GTK_EDITABLE (field->text), "2.46");
  sw_quantity_entry_set_question (field->entry, "The last weight was 24.6 kg: is the unit right?");
  gtk_test_accessible_assert_state (field->text, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_FALSE);
  ck_assert (sw_quantity_entry_take (field->entry, &value));
  ck_assert_int_eq (value, 2460);
}
END_TEST

START_TEST (an_offer_never_overwrites_what_was_typed)
{
  g_autoptr (Field) field = field_new (SW_QUANTITY_LENGTH);

  gtk_window_set_focus (GTK_WINDOW (field->window), NULL);
  sw_quantity_entry_offer_value (field->entry, 2140);
  ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), "21.4");
  ck_assert (!sw_quantity_entry_is_edited (field->entry));
  ck_assert_uint_eq (field->changed, 0);
  gtk_editable_set_text (GTK_EDITABLE (field->text), "21.");
  ck_assert (sw_quantity_entry_is_edited (field->entry));
  sw_quantity_entry_offer_value (field->entry, 1800);
  ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), "21.");
  sw_quantity_entry_set_value (field->entry, 1800);
  ck_assert_str_eq (sw_quantity_entry_get_text (field->entry), "18.0");
}
END_TEST

START_TEST (days_times_and_numbers)
{
  g_autoptr (Field) day = field_new (SW_QUANTITY_DAY);
  g_autoptr (Field) time = field_new (SW_QUANTITY_TIME);
  g_autoptr (Field) whole = field_new (SW_QUANTITY_WHOLE);

  type_and_enter (day, "2026-02-28");
  ck_assert_int_eq (day->accepted, sw_day_from_ymd (2026, 2, 28));
  type_and_enter (day, "2026-02-29");
  ck_assert_int_eq (day->accepted, sw_day_from_ymd (2026, 2, 28));
  type_and_enter (time, "08:05");
  ck_assert_int_eq (time->accepted, 485);
  type_and_enter (whole, "0");
  ck_assert_int_eq (whole->accepted, 0);
  type_and_enter (whole, "7");
  ck_assert_int_eq (whole->accepted, 7);
}
END_TEST

START_TEST (it_has_a_name)
{
  g_autoptr (Field) field = field_new (SW_QUANTITY_LENGTH);

  gtk_test_accessible_assert_property (field->text, GTK_ACCESSIBLE_PROPERTY_LABEL, "length, reading 1");
  ck_assert_ptr_eq (sw_quantity_entry_around (ui_find_type (GTK_WIDGET (field->text), GTK_TYPE_TEXT)), field->entry);
}
END_TEST

int
main (void)
{
  Suite *suite = suite_create ("quantity-entry");
  TCase *tcase = tcase_create ("quantity-entry");

  ui_init ();
  tcase_add_test (tcase, the_same_reading);
  tcase_add_test (tcase, a_refusal_keeps_the_text);
  tcase_add_test (tcase, empty_is_wrong_only_where_required);
  tcase_add_test (tcase, a_question_is_no_refusal);
  tcase_add_test (tcase, an_offer_never_overwrites_what_was_typed);
  tcase_add_test (tcase, days_times_and_numbers);
  tcase_add_test (tcase, it_has_a_name);
  suite_add_tcase (suite, tcase);

  return ui_run (suite);
}
