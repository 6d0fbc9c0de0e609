/* near.h: two doubles agree when both are absent or they differ by no more than was said
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <check.h>
#include <math.h>

#define assert_near(found, expected, within) \
  do \
    { \
      double found_ = (found), expected_ = (expected); \
      ck_assert_msg ((isnan (found_) && isnan (expected_)) || found_ == expected_ \
                     || fabs (found_ - expected_) <= (within), \
                     "%s is %.12g, expected %.12g within %g", #found, found_, expected_, (double) (within)); \
    } \
  while (0)
