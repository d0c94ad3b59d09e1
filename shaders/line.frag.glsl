// A line of some width in pixels, solid, double, or of dashes that run on from segment to segment.
uniform vec4 u_colour;
uniform float u_half_width;
uniform float u_gap; // half the gap of a double line; 0: one line
uniform int u_n_dashes;
uniform float u_dashes[6]; // on, off, on, off … in pixels
uniform float u_period;
uniform float u_swell; // a casing: this much wider than the line all round

in vec2 v_place;
in float v_length;
in vec2 v_along;
in float v_strength;
layout (location = 0) out vec4 o_colour;

// How far @at is from the next dash along the line; negative within one.
float
from_dash (float at)
{
  float phase = mod (at, u_period);
  float nearest = 1e6;
  float begin = 0.0;
  for (int i = 0; i < u_n_dashes; i += 2)
    {
      float half_dash = 0.5 * u_dashes[i];
      float from_middle = abs (phase - begin - half_dash);
      from_middle = min (from_middle, u_period - from_middle);
      nearest = min (nearest, from_middle - half_dash);
      begin += u_dashes[i] + u_dashes[i + 1];
    }
  return nearest;
}

void
main ()
{
  float on = clamp (v_place.x, 0.0, v_length);
  float across = length (vec2 (v_place.x - on, v_place.y));
  float outside = across - u_half_width;
  // Round ends would close the gap of a double line at every joint: it ends square.
  if (u_gap > 0.0)
    outside = max (outside, max (u_gap - across, max (-v_place.x, v_place.x - v_length)));
  if (u_n_dashes > 0)
    {
      float along = v_length > 1e-4 ? mix (v_along.x, v_along.y, on / v_length) : v_along.x;
      outside = max (outside, from_dash (along));
    }
  float cover = clamp (0.5 - (outside - u_swell), 0.0, 1.0) * u_colour.a * v_strength;
  if (cover < 0.02)
    discard;
  o_colour = vec4 (u_colour.rgb, cover);
}
