/* box.h: axis-aligned boxes. An empty box has lo > hi. */
#pragma once

#include "vec3.h"

typedef struct
{
  TrnVec3 lo, hi;
} TrnBox;

static inline TrnBox
trn_box_empty (void)
{
  return (TrnBox){ { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
}

static inline gboolean
trn_box_is_empty (const TrnBox *box)
{
  return !(box->lo.x <= box->hi.x && box->lo.y <= box->hi.y && box->lo.z <= box->hi.z);
}

/* A coordinate that is no number is left out, as by fmin, which is a call. */
static inline void
trn_box_add_point (TrnBox *box, TrnVec3 p)
{
  const TrnVec3 lo = box->lo, hi = box->hi;
  box->lo
      = trn_vec3_make (p.x < lo.x ? p.x : lo.x, p.y < lo.y ? p.y : lo.y, p.z < lo.z ? p.z : lo.z);
  box->hi
      = trn_vec3_make (p.x > hi.x ? p.x : hi.x, p.y > hi.y ? p.y : hi.y, p.z > hi.z ? p.z : hi.z);
}

static inline void
trn_box_add_box (TrnBox *box, const TrnBox *other)
{
  if (trn_box_is_empty (other))
    return;
  trn_box_add_point (box, other->lo);
  trn_box_add_point (box, other->hi);
}

static inline TrnVec3
trn_box_centre (const TrnBox *box)
{
  return trn_vec3_mix (box->lo, box->hi, 0.5);
}

static inline TrnVec3
trn_box_size (const TrnBox *box)
{
  return trn_vec3_sub (box->hi, box->lo);
}

/* The axis along which it is longest, 0 (x) to 2 (z); of axes alike the first. */
static inline guint
trn_box_longest (const TrnBox *box)
{
  const TrnVec3 size = trn_box_size (box);
  return size.x >= fmax (size.y, size.z) ? 0 : size.y >= size.z ? 1 : 2;
}

/* By so much on all sides. */
static inline TrnBox
trn_box_grow (TrnBox box, double by)
{
  const TrnVec3 all = { by, by, by };
  return (TrnBox){ trn_vec3_sub (box.lo, all), trn_vec3_add (box.hi, all) };
}

/* Corner 0 … 7: bit 0 chooses x, bit 1 y, bit 2 z; a set bit is the upper end. */
static inline TrnVec3
trn_box_corner (const TrnBox *box, guint corner)
{
  return trn_vec3_make (corner & 1 ? box->hi.x : box->lo.x, corner & 2 ? box->hi.y : box->lo.y,
                        corner & 4 ? box->hi.z : box->lo.z);
}
