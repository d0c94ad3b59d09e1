// For picking: where the surface is, by the bits of its coordinates, and whose it is.
uniform uint u_id;

in vec3 v_local;
layout (location = 0) out uvec4 o_place;

void
main ()
{
  cut_away (v_local);
  o_place = uvec4 (floatBitsToUint (v_local), u_id);
}
