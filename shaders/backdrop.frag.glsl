// The background: from one quiet tone to another, over the height of the whole picture.
uniform vec4 u_colour;
uniform vec4 u_colour_top;
uniform vec2 u_tile;
uniform float u_whole_height;

layout (location = 0) out vec4 o_colour;

void
main ()
{
  float height = (gl_FragCoord.y + u_tile.y) / u_whole_height;
  o_colour = vec4 (mix (u_colour.rgb, u_colour_top.rgb, height), 1.0);
}
