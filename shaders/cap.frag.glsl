// A cut face: flat, with hatching at 45° to the screen.
uniform vec4 u_colour;
uniform vec4 u_hatch_colour;
uniform vec2 u_tile;
uniform vec2 u_hatch; // direction: (1, 1) or (1, -1)

in vec3 v_local;
layout (location = 0) out vec4 o_colour;

const float pitch_px = 8.0;
const float width_px = 1.1;

void
main ()
{
  float across = dot (gl_FragCoord.xy + u_tile, u_hatch) * 0.70710678;
  float from_line = abs (fract (across / (pitch_px * u_scale)) - 0.5) * pitch_px * u_scale;
  float cover = clamp (0.5 + 0.5 * width_px * u_scale - from_line, 0.0, 1.0);
  o_colour = vec4 (mix (u_colour.rgb, u_hatch_colour.rgb, cover * u_hatch_colour.a), 1.0);
}
