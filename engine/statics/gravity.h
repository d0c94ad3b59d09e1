/* gravity.h: from masses to weights. */
#pragma once

/* The standard acceleration of free fall (3rd General Conference on Weights and Measures, 1901). It
 * differs from that of a site by 0.3 % at most. */
#define TRN_GRAVITY_M_S2 9.80665
