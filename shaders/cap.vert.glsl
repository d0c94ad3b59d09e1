// A square on the section plane, large enough for the body that is cut.
uniform mat4 u_view;
uniform mat4 u_projection;
uniform vec3 u_centre;
uniform vec3 u_side_a;
uniform vec3 u_side_b;

out vec3 v_local;
out vec3 v_normal;

void
main ()
{
  float a = (gl_VertexID & 1) == 0 ? -1.0 : 1.0;
  float b = (gl_VertexID & 2) == 0 ? -1.0 : 1.0;
  v_local = u_centre + a * u_side_a + b * u_side_b;
  v_normal = vec3 (0.0, 0.0, 1.0);
  gl_Position = u_projection * (u_view * vec4 (v_local, 1.0));
}
