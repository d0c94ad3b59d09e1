/* quad-motion.h: a motion in quadruple precision, straight from the formulas in motion.h, for tests
 * of what the engine derives from it.
 *
 * Seen along a direction n every point of every move is
 *   f(s) = c0 + c1 s + (a0 + a1 s) cos(w s) + (b0 + b1 s) sin(w s)
 * with one w, since an arc turns the body by its own angle or not at all. */
#pragma once

#include "motion.h"
#include "quad.h"

/* A motion is what its members say, each taken as exact, but for the axis, whose length is exactly
 * 1 here. */
typedef struct
{
  const TrnMotion *motion;
  QuadVec axis;
} QuadMotion;

static inline QuadVec
quad_turned (const TrnRotation *r, QuadVec p)
{
  return (QuadVec){ r->m[0][0] * p.x + r->m[0][1] * p.y + r->m[0][2] * p.z,
                    r->m[1][0] * p.x + r->m[1][1] * p.y + r->m[1][2] * p.z,
                    r->m[2][0] * p.x + r->m[2][1] * p.y + r->m[2][2] * p.z };
}

static inline QuadVec
quad_turned_back (const TrnRotation *r, QuadVec p)
{
  return (QuadVec){ r->m[0][0] * p.x + r->m[1][0] * p.y + r->m[2][0] * p.z,
                    r->m[0][1] * p.x + r->m[1][1] * p.y + r->m[2][1] * p.z,
                    r->m[0][2] * p.x + r->m[1][2] * p.y + r->m[2][2] * p.z };
}

/* A point of the frame seen from the site. */
static inline QuadVec
quad_placed (const TrnPose *pose, QuadVec p)
{
  return quad_add (quad_turned (&pose->turn, p), quad_vec (pose->position));
}

static inline QuadVec
quad_placed_back (const TrnPose *pose, QuadVec p)
{
  return quad_turned_back (&pose->turn, quad_sub (p, quad_vec (pose->position)));
}

static inline QuadMotion
quad_motion_make (const TrnMotion *motion)
{
  QuadVec axis = quad_vec (motion->axis);
  return (QuadMotion){ motion, quad_times (axis, 1 / quad_length (axis)) };
}

/* Rodrigues' formula. */
static inline QuadVec
quad_rotated (QuadVec axis, Quad sine, Quad cosine, QuadVec p)
{
  QuadVec along = quad_times (axis, quad_product (axis, p)), square = quad_sub (p, along);
  return quad_add (along,
                   quad_add (quad_times (square, cosine), quad_times (quad_cross (axis, p), sine)));
}

/* Where the point @x of the body is on the site at @s. */
static inline QuadVec
quad_motion_place (const QuadMotion *m, Quad s, TrnVec3 x)
{
  const TrnMotion *motion = m->motion;
  Quad sine, cosine;
  quad_sin_cos (s * motion->angle_rad, &sine, &cosine);
  QuadVec r = quad_turned (&motion->start.turn, quad_sub (quad_vec (x), quad_vec (motion->pivot)));
  QuadVec path = quad_along (quad_vec (motion->from), quad_vec (motion->by), s);
  if (motion->path == TRN_PATH_ARC)
    {
      Quad radius = motion->radius_m + s * motion->radius_by_m, sp, cp;
      quad_sin_cos ((Quad)motion->phi0_rad + s * motion->phi_rad, &sp, &cp);
      path = (QuadVec){ motion->centre_x + radius * cp, motion->centre_y + radius * sp,
                        motion->from.z + s * motion->by.z };
    }
  else if (motion->path == TRN_PATH_LEVEL_TAIL)
    {
      QuadVec head = quad_vec (motion->head_from_tail);
      path = quad_vec (motion->from);
      path.z += quad_rotated (m->axis, sine, cosine, head).z - head.z;
    }
  return quad_add (path, quad_rotated (m->axis, sine, cosine, r));
}

/* The six numbers of f and w. */
typedef struct
{
  Quad c0, c1, a0, a1, b0, b1, w;
} QuadWave;

/* Of the point @x along @n, a direction of the site. */
static inline QuadWave
quad_motion_wave (const QuadMotion *m, QuadVec n, TrnVec3 x)
{
  const TrnMotion *motion = m->motion;
  QuadVec r = quad_turned (&motion->start.turn, quad_sub (quad_vec (x), quad_vec (motion->pivot)));
  QuadVec along = quad_times (m->axis, quad_product (m->axis, r));
  QuadWave f = { .w = motion->path == TRN_PATH_ARC ? motion->phi_rad : motion->angle_rad };
  if (motion->angle_rad != 0)
    {
      f.c0 = quad_product (n, along);
      f.a0 = quad_product (n, r) - f.c0;
      f.b0 = quad_product (n, quad_cross (m->axis, r));
    }
  else
    f.c0 = quad_product (n, r);
  if (motion->path == TRN_PATH_ARC)
    {
      Quad sp, cp, across;
      quad_sin_cos (motion->phi0_rad, &sp, &cp);
      across = n.y * cp - n.x * sp;
      cp = n.x * cp + n.y * sp;
      f.c0 += n.x * motion->centre_x + n.y * motion->centre_y + n.z * motion->from.z;
      f.c1 = n.z * motion->by.z;
      f.a0 += motion->radius_m * cp;
      f.a1 = motion->radius_by_m * cp;
      f.b0 += motion->radius_m * across;
      f.b1 = motion->radius_by_m * across;
      return f;
    }
  f.c0 += quad_product (n, quad_vec (motion->from));
  if (motion->path == TRN_PATH_LINE)
    f.c1 = quad_product (n, quad_vec (motion->by));
  else
    {
      QuadVec head = quad_vec (motion->head_from_tail);
      Quad level = m->axis.z * quad_product (m->axis, head);
      f.c0 += n.z * (level - head.z);
      f.a0 += n.z * (head.z - level);
      f.b0 += n.z * quad_cross (m->axis, head).z;
    }
  return f;
}

static inline Quad
quad_wave_at (const QuadWave *f, Quad s)
{
  Quad sine, cosine;
  quad_sin_cos (f->w * s, &sine, &cosine);
  return f->c0 + f->c1 * s + (f->a0 + f->a1 * s) * cosine + (f->b0 + f->b1 * s) * sine;
}

/* f″ and a bound on |f‴| for s in [0, 1]. */
static inline Quad
quad_wave_bend (const QuadWave *f, Quad s)
{
  Quad sine, cosine;
  quad_sin_cos (f->w * s, &sine, &cosine);
  Quad a = f->a0 + f->a1 * s, b = f->b0 + f->b1 * s;
  return f->w * (2 * f->b1 - f->w * a) * cosine - f->w * (2 * f->a1 + f->w * b) * sine;
}

static inline Quad
quad_wave_jerk (const QuadWave *f)
{
  Quad size = 0, w = f->w < 0 ? -f->w : f->w;
  const Quad amplitudes[4] = { f->a0, f->b0, f->a1, f->b1 };
  for (int i = 0; i < 4; i++)
    size += (amplitudes[i] < 0 ? -amplitudes[i] : amplitudes[i]) * (i < 2 ? w : w + 3);
  return w * w * size;
}
