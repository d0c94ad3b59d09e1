// A segment of a line as a rectangle on the screen, one instance each. Its ends are cut to what is
// before the near plane and, for edges, to the kept side of the section plane. Everything after
// that is in pixels, so the vertices get w = 1: no perspective within the rectangle.
layout (location = 0) in vec3 a_from;
layout (location = 1) in vec3 a_to;
layout (location = 2) in vec2 a_along; // pixels along the whole line at both ends

uniform mat4 u_local_from_mesh;
uniform mat4 u_view;
uniform mat4 u_projection;
uniform vec2 u_viewport;
uniform vec4 u_section_view;
uniform float u_section_on;
uniform float u_near;
uniform float u_bias;
uniform float u_parallel;
uniform float u_reach; // half the width of the rectangle
uniform float u_spacing; // between lines, in pixels: at the depth of 1 in a perspective view

out vec2 v_place; // along from the start of the segment, and across
out float v_length;
out vec2 v_along;
out float v_strength;

// Lines nearer to each other than the first, in pixels, are faint; farther than the second, full.
const vec2 crowded = vec2 (2.0, 14.0);
const float faintest = 0.1;

// Cuts the segment to where @at_from … @at_to is positive; false where nothing remains.
bool
cut (inout vec3 from, inout vec3 to, float at_from, float at_to)
{
  if (at_from < 0.0 && at_to < 0.0)
    return false;
  if (at_from < 0.0)
    from = mix (from, to, at_from / (at_from - at_to));
  else if (at_to < 0.0)
    to = mix (to, from, at_to / (at_to - at_from));
  return true;
}

vec3
towards_eye (vec3 view)
{
  return u_parallel > 0.5 ? view + vec3 (0.0, 0.0, u_bias) : view * (1.0 - u_bias);
}

float
strength (float depth)
{
  float room = u_parallel > 0.5 ? u_spacing : u_spacing / depth;
  return mix (faintest, 1.0, smoothstep (crowded.x, crowded.y, room));
}

void
main ()
{
  vec3 from = (u_view * (u_local_from_mesh * vec4 (a_from, 1.0))).xyz;
  vec3 to = (u_view * (u_local_from_mesh * vec4 (a_to, 1.0))).xyz;
  bool seen = cut (from, to, -from.z - u_near, -to.z - u_near);
  if (seen && u_section_on > 0.5)
    seen = cut (from, to, u_section_view.w - dot (u_section_view.xyz, from),
                u_section_view.w - dot (u_section_view.xyz, to));
  v_along = a_along;
  v_place = vec2 (0.0);
  v_length = 0.0;
  v_strength = 1.0;
  gl_Position = vec4 (0.0, 0.0, 2.0, 1.0);
  if (!seen)
    return;
  vec4 clip_from = u_projection * vec4 (towards_eye (from), 1.0);
  vec4 clip_to = u_projection * vec4 (towards_eye (to), 1.0);
  vec3 start = clip_from.xyz / clip_from.w;
  vec3 end = clip_to.xyz / clip_to.w;
  vec2 pixels = (end.xy - start.xy) * 0.5 * u_viewport;
  v_length = length (pixels);
  vec2 along = v_length > 1e-4 ? pixels / v_length : vec2 (1.0, 0.0);
  vec2 across = vec2 (-along.y, along.x);
  bool at_end = (gl_VertexID & 1) != 0;
  float side = (gl_VertexID & 2) != 0 ? u_reach : -u_reach;
  v_place = vec2 (at_end ? v_length + u_reach : -u_reach, side);
  vec3 place = at_end ? end : start;
  v_strength = strength (at_end ? -to.z : -from.z);
  place.xy += ((at_end ? along : -along) * u_reach + across * side) * 2.0 / u_viewport;
  gl_Position = vec4 (place, 1.0);
}
