/* sw-agreement.h: do two readings, or several readers, agree?
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * SwAgreement:
 * @n: pairs
 * @mean_difference: mean of a - b, with @mean_lo and @mean_hi, its limits of confidence
 * @sd: standard deviation of the differences (n - 1)
 * @lo: lower limit of agreement, mean - 1.96 sd, with its own limits of confidence @lo_lo and @lo_hi
 * @hi: upper limit of agreement, likewise
 * @tem: technical error of measurement, sqrt (sum d^2 / 2n), in the unit of the readings
 * @tem_percent: of the mean of all readings; NaN when that mean is 0
 *
 * With one pair there is no spread: @sd, the limits and their limits are NaN. With none, all doubles are.
 */
typedef struct
{
  gsize n;
  double mean_difference, mean_lo, mean_hi;
  double sd;
  double lo, lo_lo, lo_hi;
  double hi, hi_lo, hi_hi;
  double tem;
  double tem_percent;
} SwAgreement;

/**
 * sw_agreement_compute:
 * @a: (array length=n): first reading of each subject, finite
 * @b: (array length=n): second reading, finite
 * @n: pairs, 0 and more
 * @level: confidence of the limits' own limits, inside (0, 1)
 * @result: (out caller-allocates): what was found
 *
 * Limits of agreement (Bland JM, Altman DG 1986 Lancet i:307-310) with variance of a limit sd^2 (1/n + 1.96^2 /
 * 2(n-1)) and Student's t (Bland JM, Altman DG 1999 Stat Methods Med Res 8:135-160 [memory]). Technical error:
 * Dahlberg G 1940; Ulijaszek SJ, Kerr DA 1999 Br J Nutr 82:165-177 [memory].
 *
 * Errors: %SW_ERROR_INPUT when a reading is not finite (the sentence names the row) or the level is outside its domain.
 */
gboolean sw_agreement_compute (const double *a,
                               const double *b,
                               gsize n,
                               double level,
                               SwAgreement *result,
                               GError **error);

/* Judges differ per target (1), are a sample (2), are the only ones (3); reliability of one judge or of their mean (K). */
typedef enum
{
  SW_ICC_1_1,
  SW_ICC_2_1,
  SW_ICC_3_1,
  SW_ICC_1_K,
  SW_ICC_2_K,
  SW_ICC_3_K,
} SwIccForm;

#define SW_N_ICC_FORMS 6

/**
 * SwJudges:
 * @icc: by #SwIccForm; NaN where its denominator is 0 (all ratings alike)
 * @between: mean square of targets, @n_targets - 1 degrees of freedom
 * @within: mean square inside targets, @n_targets (@n_judges - 1) degrees
 * @judges: mean square of judges, @n_judges - 1 degrees
 * @residual: mean square left over, (@n_targets - 1) (@n_judges - 1) degrees
 */
typedef struct
{
  gsize n_targets;
  gsize n_judges;
  double icc[SW_N_ICC_FORMS];
  double between, within, judges, residual;
} SwJudges;

/**
 * sw_judges_compute:
 * @ratings: (array): finite, target by target, @n_targets x @n_judges
 * @n_targets: 2 and more
 * @n_judges: 2 and more; every judge rates every target
 * @result: (out caller-allocates): what was found
 *
 * Intraclass correlations. Source: Shrout PE, Fleiss JL 1979 Psychol Bull 86:420-428.
 *
 * Errors: %SW_ERROR_INPUT when there are too few targets or judges, or a rating is not finite.
 */
gboolean sw_judges_compute (const double *ratings,
                            gsize n_targets,
                            gsize n_judges,
                            SwJudges *result,
                            GError **error);

G_END_DECLS
