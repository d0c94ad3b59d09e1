// A body: its vertices in the mesh's frame to "local", the site's axes about the frame's origin.
layout (location = 0) in vec3 a_position;
layout (location = 1) in vec3 a_normal;

uniform mat4 u_local_from_mesh;
uniform mat4 u_view;
uniform mat4 u_projection;

out vec3 v_local;
out vec3 v_normal;

// The depth pass and the colour pass of a ghost must agree to the bit.
invariant gl_Position;

void
main ()
{
  vec4 local = u_local_from_mesh * vec4 (a_position, 1.0);
  v_local = local.xyz;
  v_normal = mat3 (u_local_from_mesh) * a_normal;
  gl_Position = u_projection * (u_view * local);
}
