/* sentences.h: the sentence for each code that the engine can say. */
#pragma once

/* A template in the source language, marked for translation: {name} stands for the value of that
 * name. NULL for an unknown code. */
const char *trn_sentence_template (const char *code);
