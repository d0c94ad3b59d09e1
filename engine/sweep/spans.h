/* spans.h: the spans of time in which two bodies touch, in order and apart from each other. */
#pragma once

#include "interval.h"

/* Whether one of @pair lies within the other at @s, where their surfaces do not meet. */
typedef gboolean (*TrnSpansInside) (gconstpointer pair, double s);

/* @spans holds TrnInterval. Adds @span, which begins no earlier than the last one there does; the
 * two become one where they meet. */
void trn_spans_add (GArray *spans, TrnInterval span);

/* Adds to @spans those of @surface, in which surfaces meet, and of the gaps that these leave of
 * @whole the ones in the middle of which @inside holds: between two contacts that cannot change. */
void trn_spans_fill (const GArray *surface, TrnInterval whole, TrnSpansInside inside,
                     gconstpointer pair, GArray *spans);
