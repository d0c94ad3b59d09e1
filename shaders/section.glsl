// What lies on the positive side of the section plane is not there.
uniform vec4 u_section;

void
cut_away (vec3 local)
{
#ifdef SECTION
  if (dot (u_section.xyz, local) > u_section.w)
    discard;
#endif
}
