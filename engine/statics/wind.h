/* wind.h: the pressure of wind, its force on a load, and how much wind a load allows. */
#pragma once

#include <glib.h>

/* Densities of air behind the two common forms of the pressure; they differ by 2 %, so that the one
 * that was used is told with every result. */
#define TRN_AIR_EN_KG_M3 1.25   /* v²/1.6; EN 1991-1-4 */
#define TRN_AIR_613_KG_M3 1.226 /* 0.613 v² */

/* ½ ρ v² */
double trn_wind_pressure_pa (double speed_m_s, double air_kg_m3);
double trn_wind_speed_m_s (double pressure_pa, double air_kg_m3);

typedef enum
{
  TRN_TERRAIN_I,
  TRN_TERRAIN_II,
  TRN_TERRAIN_III,
  TRN_TERRAIN_IV
} TrnTerrain;

/* EN 1991-1-4, flat ground, without directional or seasonal factors. */
typedef struct
{
  double terrain_factor;   /* kr */
  double roughness_factor; /* cr at that height */
  double mean_m_s;         /* vm */
  double turbulence;       /* Iv */
  double peak_pa;          /* qp */
} TrnWindProfile;

/* At a height above ground, from the basic speed; below the terrain's least height that height
 * counts. */
TrnWindProfile
trn_wind_profile (TrnTerrain terrain, double basic_m_s, double height_m, double air_kg_m3);

/* The gust to expect at a height from a speed measured at 10 m: ((z/10)^0.14 + 0.4) v, as crane
 * manuals have it. */
double trn_wind_gust_m_s (double speed_m_s, double height_m);

/* q c_w A */
double trn_wind_force_n (double pressure_pa, double coefficient, double area_m2);

/* The wind that a load allows under a crane whose limit @chart_m_s holds up to a sail area times
 * c_w of @reference_m2_kg for each kilogram: the force stays that of the limit. EN 13000 practice:
 * 1.2e-3 m²/kg. Never above @chart_m_s. */
#define TRN_WIND_REFERENCE_M2_KG 1.2e-3
double trn_wind_permissible_m_s (double chart_m_s, double reference_m2_kg, double mass_kg,
                                 double area_m2, double coefficient);
