/* sw-question.c: the vocabulary of questions, in the order of the page
 *
 * Copyright (C) 2026 The Siteward developers
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "config.h"

#include "sw-question.h"

#include <glib/gi18n-lib.h>

static const SwChoice no_yes[] = { { "no", N_("no") }, { "yes", N_("yes") } };
static const SwChoice yes_no[] = { { "yes", N_("yes") }, { "no", N_("no") } };

/* Work-up, of the tumour */

static const SwChoice sample_choices[] = {
  { "not-sampled", N_("not sampled") },
  { "not-diagnostic", N_("sampled, not diagnostic") },
  { "cytology", N_("mast cell tumour, by cytology") },
  { "histology", N_("mast cell tumour, by histology") },
  { "other-tumour", N_("another tumour") },
};

static const SwChoice grade_choices[] = {
  { "none", N_("not graded") },
  { "patnaik-1", N_("Patnaik I") },
  { "patnaik-2", N_("Patnaik II") },
  { "patnaik-3", N_("Patnaik III") },
  { "kiupel-low", N_("Kiupel low") },
  { "kiupel-high", N_("Kiupel high") },
  { "cytology-low", N_("cytological low") },
  { "cytology-high", N_("cytological high") },
};

static const SwChoice surface_choices[] = {
  { "unbroken", N_("unbroken over all of the mass") },
  { "crust", N_("crust") },
  { "slough", N_("slough") },
  { "erosion", N_("erosion or ulcer") },
  { "biopsy-hole", N_("unhealed biopsy hole") },
};

/* Work-up, of the dog */

static const SwChoice node_choices[] = {
  { "not-assessed", N_("not assessed") },
  { "palpated", N_("palpated only") },
  { "sampled-negative", N_("sampled, negative") },
  { "hn0", N_("HN0") },
  { "hn1", N_("HN1") },
  { "hn2", N_("HN2") },
  { "hn3", N_("HN3") },
};

static const SwChoice distant_choices[] = {
  { "not-looked-for", N_("not looked for") },
  { "no", N_("looked for, none found") },
  { "yes", N_("found") },
};

static const SwChoice stage_choices[] = {
  { "0", N_("0 (excised, microscopic)") },
  { "1", N_("I") },
  { "2", N_("II") },
  { "3", N_("III") },
  { "4", N_("IV") },
};

static const SwChoice edition_choices[] = {
  { "who-1980", N_("WHO 1980") },
  { "other", N_("another edition") },
};

static const SwChoice mediator_choices[] = {
  { "none", N_("none") },
  { "controlled", N_("had them, controlled now") },
  { "present", N_("present now") },
};

static const SwChoice breeding_choices[] = {
  { "none", N_("none of these") },
  { "pregnant", N_("pregnant") },
  { "lactating", N_("lactating") },
  { "breeding", N_("used for breeding") },
};

static const SwChoice history_choices[] = {
  { "complete", N_("complete: everything is listed") },
  { "incomplete", N_("not complete yet") },
};

static const SwChoice label_choices[] = {
  { "read-free", N_("label read: no xylitol") },
  { "not-read", N_("not read yet") },
};

static const SwChoice vaccine_choices[] = {
  { "none", N_("none") },
  { "given", N_("given") },
  { "planned", N_("planned") },
};

/* Treatment day */

static const SwChoice vomiting_choices[] = {
  { "none", N_("none") },
  { "once", N_("once") },
  { "more", N_("twice or more") },
  { "blood", N_("with blood") },
};

static const SwChoice stool_choices[] = {
  { "normal", N_("normal") },
  { "loose", N_("loose") },
  { "black", N_("black or bloody") },
};

static const SwChoice appetite_choices[] = {
  { "normal", N_("normal") },
  { "less", N_("less than usual") },
  { "none", N_("refuses food") },
};

static const SwChoice nodes_today_choices[] = {
  { "unchanged", N_("felt, unchanged") },
  { "enlarged", N_("enlarged") },
  { "not-felt", N_("not felt for") },
};

static const SwChoice suitability_choices[] = {
  { "stands", N_("asked again, stands") },
  { "changed", N_("something changed") },
};

static const SwChoice vein_choices[] = {
  { "placed", N_("catheter placed") },
  { "at-hand", N_("material at hand, no catheter") },
  { "none", N_("none, as decided by the vet") },
};

static const SwChoice restraint_choices[] = {
  { "none", N_("none") },
  { "sedation", N_("sedation") },
  { "anaesthesia", N_("general anaesthesia") },
};

static const SwChoice food_choices[] = {
  { "mouthful", N_("a mouthful with the medicines") },
  { "nothing", N_("nothing today") },
  { "meal", N_("a meal") },
};

static const SwChoice water_choices[] = {
  { "free", N_("drinks freely") },
  { "withheld", N_("withheld") },
};

static const SwChoice marked_choices[] = {
  { "skin", N_("on the skin") },
  { "photograph", N_("on a photograph") },
  { "no", N_("not marked") },
};

#define DIAGNOSIS N_("Diagnosis")
#define SITE N_("Site")
#define STAGING N_("Staging")
#define CONDITION N_("The dog now")
#define DISEASES N_("Diseases")
#define MEDICINES N_("Medicines and vaccines")
#define TODAY N_("Asked again today")
#define REACH N_("Within reach")
#define PROTECTION N_("Protection of people")
#define HANDLING N_("Restraint and fasting")

#define QUESTION(code, of, at, heading, name, extra, extra_name, choices) \
  { code, SW_ASKED_OF_##of, SW_ASKED_##at, heading, name, SW_EXTRA_##extra, extra_name, \
    choices, G_N_ELEMENTS (choices) }
#define TUMOUR_WORK_UP(code, heading, name, choices) \
  QUESTION (code, TUMOUR, AT_WORK_UP, heading, name, NONE, NULL, choices)
#define DOG_WORK_UP(code, heading, name, choices) QUESTION (code, DOG, AT_WORK_UP, heading, name, NONE, NULL, choices)
#define DOG_TODAY(code, heading, name, choices) \
  QUESTION (code, DOG, ON_TREATMENT_DAY, heading, name, NONE, NULL, choices)

static const SwQuestion questions[] = {
  QUESTION ("sample", TUMOUR, AT_WORK_UP, DIAGNOSIS, N_("sampled, before any corticosteroid"), DATE, N_("sampled on"),
            sample_choices),
  TUMOUR_WORK_UP ("grade", DIAGNOSIS, N_("grade"), grade_choices),
  TUMOUR_WORK_UP ("resectable", SITE, N_("can be cut out with safe margins"), no_yes),
  TUMOUR_WORK_UP ("reachable", SITE, N_("the needle reaches all of it"), yes_no),
  TUMOUR_WORK_UP ("surface", SITE, N_("surface"), surface_choices),
  TUMOUR_WORK_UP ("surgical-bed", SITE, N_("in the margin of a surgical bed"), no_yes),
  TUMOUR_WORK_UP ("function-site", SITE, N_("pad, anus, ear margin or another part whose loss harms function"), no_yes),

  DOG_WORK_UP ("node", STAGING, N_("regional node"), node_choices),
  DOG_WORK_UP ("distant", STAGING, N_("distant spread"), distant_choices),
  QUESTION ("stage", DOG, AT_WORK_UP, STAGING, N_("WHO stage"), DATE, N_("staged on"), stage_choices),
  QUESTION ("stage-edition", DOG, AT_WORK_UP, STAGING, N_("edition of the staging"), NOTE, N_("which"),
            edition_choices),
  DOG_WORK_UP ("mediator-signs", CONDITION,
               N_("signs of mediator release (vomiting, black stool, low pressure, hives)"),
               mediator_choices),
  DOG_WORK_UP ("breeding", CONDITION, N_("pregnant, lactating, used for breeding"), breeding_choices),
  DOG_WORK_UP ("diabetes", DISEASES, N_("diabetes mellitus"), no_yes),
  DOG_WORK_UP ("hyperadrenocorticism", DISEASES, N_("hyperadrenocorticism"), no_yes),
  DOG_WORK_UP ("gastric-ulcer", DISEASES, N_("gastric ulcer"), no_yes),
  DOG_WORK_UP ("corneal-ulcer", DISEASES, N_("corneal ulcer"), no_yes),
  DOG_WORK_UP ("infection", DISEASES, N_("uncontrolled infection"), no_yes),
  DOG_WORK_UP ("heart-disease", DISEASES, N_("heart disease"), no_yes),
  DOG_WORK_UP ("kidney-disease", DISEASES, N_("kidney disease"), no_yes),
  DOG_WORK_UP ("liver-disease", DISEASES, N_("liver disease"), no_yes),
  DOG_WORK_UP ("medicine-history", MEDICINES, N_("medicines of the last 60 days"), history_choices),
  QUESTION ("live-vaccine", DOG, AT_WORK_UP, MEDICINES, N_("live vaccine, recent or planned"), DATE, N_("on"),
            vaccine_choices),
  DOG_WORK_UP ("packs-xylitol", MEDICINES, N_("liquids and soft tablets handed out"), label_choices),

  QUESTION ("vomiting-today", DOG, ON_TREATMENT_DAY, TODAY, N_("vomiting in the last 24 hours"), NOTE, N_("when"),
            vomiting_choices),
  DOG_TODAY ("stool-today", TODAY, N_("stool"), stool_choices),
  DOG_TODAY ("appetite-today", TODAY, N_("appetite"), appetite_choices),
  QUESTION ("nsaid-today", DOG, ON_TREATMENT_DAY, TODAY, N_("any NSAID since the lead-in was planned"), NOTE,
            N_("which and when"), no_yes),
  DOG_TODAY ("nodes-today", TODAY, N_("regional nodes"), nodes_today_choices),
  QUESTION ("new-lumps-today", DOG, ON_TREATMENT_DAY, TODAY, N_("new lumps"), NOTE, N_("where"), no_yes),
  QUESTION ("suitability-today", DOG, ON_TREATMENT_DAY, TODAY, N_("suitability"), NOTE, N_("what changed"),
            suitability_choices),
  QUESTION ("surface-today", TUMOUR, ON_TREATMENT_DAY, TODAY, N_("surface today"), NONE, NULL, surface_choices),
  QUESTION ("marked-today", TUMOUR, ON_TREATMENT_DAY, TODAY, N_("tumour marked"), NONE, NULL, marked_choices),
  DOG_TODAY ("adrenaline-today", REACH, N_("adrenaline"), yes_no),
  DOG_TODAY ("fluids-today", REACH, N_("fluids for the vein"), yes_no),
  DOG_TODAY ("antihistamine-today", REACH, N_("injectable antihistamine"), yes_no),
  DOG_TODAY ("corticosteroid-today", REACH, N_("injectable corticosteroid"), yes_no),
  DOG_TODAY ("oxygen-today", REACH, N_("oxygen"), yes_no),
  DOG_TODAY ("vein-access-today", REACH, N_("vein access"), vein_choices),
  DOG_TODAY ("eye-protection-today", PROTECTION, N_("eye protection"), yes_no),
  DOG_TODAY ("gloves-today", PROTECTION, N_("gloves"), yes_no),
  DOG_TODAY ("luer-lock-today", PROTECTION, N_("Luer-lock syringe, low dead space"), yes_no),
  DOG_TODAY ("sharps-box-today", PROTECTION, N_("sharps box at hand, no recapping"), yes_no),
  QUESTION ("restraint-today", DOG, ON_TREATMENT_DAY, HANDLING, N_("restraint"), NOTE,
            N_("because (temperament, site)"), restraint_choices),
  DOG_TODAY ("emetic-sedative-today", HANDLING, N_("a sedative likely to cause vomiting"), no_yes),
  QUESTION ("food-today", DOG, ON_TREATMENT_DAY, HANDLING, N_("last food"), NOTE, N_("at"), food_choices),
  QUESTION ("water-today", DOG, ON_TREATMENT_DAY, HANDLING, N_("last water"), NOTE, N_("at"), water_choices),
};

const SwQuestion *
sw_questions (guint *n)
{
  *n = G_N_ELEMENTS (questions);
  return questions;
}

const SwQuestion *
sw_question (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (questions); i++)
    if (g_strcmp0 (questions[i].code, code) == 0)
      return &questions[i];
  return NULL;
}

const SwChoice *
sw_question_choice (const SwQuestion *question, const char *answer)
{
  g_return_val_if_fail (question != NULL, NULL);

  for (guint i = 0; i < question->n_choices; i++)
    if (g_strcmp0 (question->choices[i].code, answer) == 0)
      return &question->choices[i];
  return NULL;
}
