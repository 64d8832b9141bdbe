/*
 * Mixes and breathing modes as people and files write them.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_IMPORT_FORMAT_BREATHING_H
#define PLM_IMPORT_FORMAT_BREATHING_H

#include <plimsoll/dive.h>

/*
 * "air", "oxygen", "32", "18/45", "nitrox 32", "trimix 18/45", "heliox 20/80", "EAN32", "Tx 18/45".
 * Returns: false for anything else, and for parts that come to more than 100.
 */
bool plmi_mix_name_parse(const char *text, double *o2_frac, double *he_frac);

/*
 * "open", "closed", "semiclosed" and the words that stand for them in six languages, in UDDF too.
 *   apnoe [out] the word is for a breath-hold dive, which no part of the model knows; mode is then OPEN
 */
bool plmi_mode_parse(const char *text, enum plm_mode *mode, bool *apnoe);

/* What a mix is carried for, as plm_export writes it: "diluent", "bailout", "deco"; *use stays for any other word. */
void plmi_mix_use_parse(const char *word, enum plm_mix_use *use);

#endif
