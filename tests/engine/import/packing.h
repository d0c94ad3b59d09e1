/* packing.h: coordinates rounded as Draco 1.5 rounds them (attribute_quantization_transform.cc and
 * quantization_utils.h of its sources): to whole steps from an origin, in single precision. */
#pragma once

#include <assimp/mesh.h>
#include <glib.h>
#include <math.h>

typedef struct
{
  float origin[3], range;
  guint bits;
} Packing;

static inline float *
packing_axis (struct aiVector3D *point, int i)
{
  return i == 0 ? &point->x : i == 1 ? &point->y : &point->z;
}

/* The grid that the encoder makes for these points: the least of each axis, the greatest extent. */
static inline Packing
packing_own (struct aiVector3D *points, guint n, guint bits)
{
  Packing packing = { .bits = bits };
  for (int i = 0; i < 3; i++)
    {
      float low = INFINITY, high = -INFINITY;
      for (guint v = 0; v < n; v++)
        {
          low = fminf (low, *packing_axis (&points[v], i));
          high = fmaxf (high, *packing_axis (&points[v], i));
        }
      packing.origin[i] = low;
      packing.range = fmaxf (packing.range, high - low);
    }
  if (packing.range == 0)
    packing.range = 1;
  return packing;
}

static inline float
packing_pitch (const Packing *packing)
{
  return packing->range / (float)((1u << packing->bits) - 1);
}

/* Packs and unpacks the points. Returns the most that a coordinate was moved by. */
static inline double
packing_round (const Packing *packing, struct aiVector3D *points, guint n)
{
  const float steps = (float)((1u << packing->bits) - 1);
  const float inverse = steps / packing->range, pitch = packing_pitch (packing);
  double most = 0;
  for (guint v = 0; v < n; v++)
    for (int i = 0; i < 3; i++)
      {
        float *x = packing_axis (&points[v], i);
        const float from = *x - packing->origin[i];
        const gint32 times = (gint32)floorf (from * inverse + 0.5F);
        const float length = (float)times * pitch;
        const double before = (double)*x;
        *x = length + packing->origin[i];
        most = fmax (most, fabs ((double)*x - before));
      }
  return most;
}
