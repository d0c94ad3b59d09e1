// The grid at grade where no ground is modelled, fading out around the site.
uniform vec4 u_grid_colour;
uniform vec3 u_centre;
uniform float u_radius;

in vec3 v_local;
layout (location = 0) out vec4 o_colour;

void
main ()
{
  cut_away (v_local);
  float fade = 1.0 - smoothstep (0.45, 1.0, distance (v_local.xy, u_centre.xy) / u_radius);
  float cover = grid_cover (v_local.xy) * u_grid_colour.a * fade;
  if (cover < 0.004)
    discard;
  o_colour = vec4 (u_grid_colour.rgb, cover);
}
