/* EN 1991-1-4: kr = 0.19 (z0/0.05)^0.07, cr = kr ln (z/z0), vm = cr vb, Iv = 1/ln (z/z0),
 * qp = (1 + 7 Iv) ½ ρ vm². z0 and z_min of categories I and III are as read in published
 * calculations, those of II and IV from memory.
 *
 * Permissible wind: the force q c_w A must not exceed q_chart (c_w A)_reference m, and q goes with
 * v². */
#include "wind.h"

#include <math.h>

double
trn_wind_pressure_pa (double speed_m_s, double air_kg_m3)
{
  return 0.5 * air_kg_m3 * speed_m_s * speed_m_s;
}

double
trn_wind_speed_m_s (double pressure_pa, double air_kg_m3)
{
  return sqrt (2 * pressure_pa / air_kg_m3);
}

TrnWindProfile
trn_wind_profile (TrnTerrain terrain, double basic_m_s, double height_m, double air_kg_m3)
{
  static const struct
  {
    double roughness_m, least_height_m;
  } terrains[] = { { 0.01, 1 }, { 0.05, 2 }, { 0.3, 5 }, { 1.0, 10 } };
  double z0 = terrains[terrain].roughness_m;
  double z = fmax (height_m, terrains[terrain].least_height_m);
  TrnWindProfile profile = { .terrain_factor = 0.19 * pow (z0 / 0.05, 0.07) };
  profile.roughness_factor = profile.terrain_factor * log (z / z0);
  profile.mean_m_s = profile.roughness_factor * basic_m_s;
  profile.turbulence = 1 / log (z / z0);
  profile.peak_pa
      = (1 + 7 * profile.turbulence) * trn_wind_pressure_pa (profile.mean_m_s, air_kg_m3);
  return profile;
}

double
trn_wind_gust_m_s (double speed_m_s, double height_m)
{
  return (pow (fmax (0, height_m) / 10, 0.14) + 0.4) * speed_m_s;
}

double
trn_wind_force_n (double pressure_pa, double coefficient, double area_m2)
{
  return pressure_pa * coefficient * area_m2;
}

double
trn_wind_permissible_m_s (double chart_m_s, double reference_m2_kg, double mass_kg, double area_m2,
                          double coefficient)
{
  double ratio = reference_m2_kg * mass_kg / (area_m2 * coefficient);
  return ratio >= 1 ? chart_m_s : chart_m_s * sqrt (ratio);
}
