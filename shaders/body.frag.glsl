// Soft light that shows form: more from the sky than from below, and a key light that comes over
// the viewer's shoulder. Both sides of a face are lit alike, so that open meshes look right.
uniform vec4 u_colour;
uniform vec4 u_grid_colour;
uniform vec3 u_key;
uniform vec4 u_eye; // w 1: a place; w 0: the direction to it, in a parallel view
uniform float u_form; // 1: lit; less: flatter
uniform float u_grade_z;

in vec3 v_local;
in vec3 v_normal;
layout (location = 0) out vec4 o_colour;

void
main ()
{
  cut_away (v_local);
  vec3 normal = normalize (v_normal);
  if (!gl_FrontFacing)
    normal = -normal;
  vec3 to_eye = normalize (u_eye.xyz - u_eye.w * v_local);
  float sky = 0.5 + 0.5 * normal.z;
  float key = max (0.25 + 0.75 * dot (normal, u_key), 0.0);
  float rim = smoothstep (0.0, 0.55, abs (dot (normal, to_eye)));
  float light = (0.46 + 0.27 * sky + 0.36 * key) * (0.84 + 0.16 * rim);
  vec3 colour = u_colour.rgb * mix (1.0, light, u_form);
  if (u_grid_pitch > 0.0)
    {
      float cover = grid_cover (v_local.xy) * u_grid_colour.a;
      bool on_grade = abs (v_local.z - u_grade_z) < 0.01 && abs (normal.z) > 0.99;
      colour = mix (colour, u_grid_colour.rgb, on_grade ? cover : 0.0);
    }
  o_colour = vec4 (min (colour, vec3 (1.0)), u_colour.a);
}
