// How much of a pixel the lines of the grid cover, every fifth one heavier. Lines that would come
// closer than a few pixels fade out instead of shimmering.
uniform float u_grid_pitch;
uniform vec2 u_grid_shift;
uniform float u_scale; // device pixels a logical pixel

float
lines_cover (vec2 at, float width_px)
{
  vec2 per_pixel = fwidth (at);
  vec2 from_line = abs (fract (at - 0.5) - 0.5) / max (per_pixel, vec2 (1e-7));
  vec2 cover = clamp (0.5 + 0.5 * width_px * u_scale - from_line, 0.0, 1.0);
  vec2 room = 1.0 - smoothstep (vec2 (0.12), vec2 (0.35), per_pixel);
  return max (cover.x * room.x, cover.y * room.y);
}

float
grid_cover (vec2 local)
{
  vec2 at = (local + u_grid_shift) / u_grid_pitch;
  return max (0.5 * lines_cover (at, 1.0), lines_cover (at / 5.0, 1.3));
}
