/* palette.c: warm sand for the load, cool grey for what must not be touched, a tone between for
 * other components, mauve for lifting gear. Load and structures differ in lightness too, so that
 * they stay apart in grey. Edges are a darker shade of their face on light, and a lighter one on
 * dark, so that outlines stand out from the background in both. */
#include "palette.h"

#define RGBA(hex, alpha)                                                                           \
  {                                                                                                \
    ((hex) >> 16 & 255) / 255.0, ((hex) >> 8 & 255) / 255.0, ((hex)&255) / 255.0, (alpha)          \
  }
#define RGB(hex) RGBA (hex, 1)

static const RenderPalette palettes[2] = {
  {
      .background_top = RGB (0xe6edf3),
      .background_bottom = RGB (0xfafafa),
      .faces = { [RENDER_ROLE_LOAD] = RGB (0xe6c48f),
                 [RENDER_ROLE_STRUCTURE] = RGB (0xccd6da),
                 [RENDER_ROLE_COMPONENT] = RGB (0xd3ccbf),
                 [RENDER_ROLE_GROUND] = RGB (0xe0e3e3),
                 [RENDER_ROLE_GEAR] = RGB (0xa98bb0) },
      .edges = { [RENDER_ROLE_LOAD] = RGB (0x5e4416),
                 [RENDER_ROLE_STRUCTURE] = RGB (0x505c66),
                 [RENDER_ROLE_COMPONENT] = RGB (0x5f584c),
                 [RENDER_ROLE_GROUND] = RGB (0x6f777d),
                 [RENDER_ROLE_GEAR] = RGB (0x4c3153) },
      .human = RGB (0x6a717a),
      .human_edge = RGB (0x3a4046),
      .selected = RGB (0x16191c),
      .grid = RGBA (0x4a5a68, 0.42),
  },
  {
      .background_top = RGB (0x1c2126),
      .background_bottom = RGB (0x2b3137),
      .faces = { [RENDER_ROLE_LOAD] = RGB (0xc59a5c),
                 [RENDER_ROLE_STRUCTURE] = RGB (0x68747f),
                 [RENDER_ROLE_COMPONENT] = RGB (0x857b6c),
                 [RENDER_ROLE_GROUND] = RGB (0x444b51),
                 [RENDER_ROLE_GEAR] = RGB (0xa78fb8) },
      .edges = { [RENDER_ROLE_LOAD] = RGB (0xf9ebd2),
                 [RENDER_ROLE_STRUCTURE] = RGB (0xc3ced7),
                 [RENDER_ROLE_COMPONENT] = RGB (0xd6cdbf),
                 [RENDER_ROLE_GROUND] = RGB (0x8f9aa3),
                 [RENDER_ROLE_GEAR] = RGB (0xeadff2) },
      .human = RGB (0xa9b1ba),
      .human_edge = RGB (0xd5dbe0),
      .selected = RGB (0xffffff),
      .grid = RGBA (0xb4c3d0, 0.30),
  },
};

const RenderPalette *
render_palette_get (gboolean dark)
{
  return &palettes[dark ? 1 : 0];
}
