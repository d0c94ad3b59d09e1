/* test-palette.c: the colours of states stay apart for every eye, and their words can be read.
 *
 * Difference: CIEDE2000 as in Sharma, Wu, Dalal: "The CIEDE2000 Color-Difference Formula:
 * Implementation Notes, Supplementary Test Data, and Mathematical Observations" (2005). Colour
 * blindness: the matrices of full severity of Machado, Oliveira, Fernandes: "A
 * Physiologically-based Model for Simulation of Color Vision Deficiency" (2009), on linear light.
 * Contrast: WCAG 2.1, success criterion 1.4.3. All are written down from memory; the formula is
 * held against published pairs, the matrices against white, which they must keep. */
#include <math.h>

#include "draw-list.h"
#include "palette.h"
#include "plot-text.h"

#define LEAST_DIFFERENCE 20
#define LEAST_CONTRAST 4.5

typedef struct
{
  double l, a, b;
} Lab;

static double
degrees (double radians)
{
  return radians * 180 / G_PI;
}

static double
cos_deg (double deg)
{
  return cos (deg * G_PI / 180);
}

static double
hue_of (double a, double b)
{
  double deg = degrees (atan2 (b, a));
  return deg < 0 ? deg + 360 : deg;
}

static double
mean_hue (double h1, double h2, gboolean grey)
{
  if (grey)
    return h1 + h2;
  if (fabs (h1 - h2) <= 180)
    return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}

static double
hue_step (double h1, double h2, gboolean grey)
{
  double step = h2 - h1;
  if (grey)
    return 0;
  return step > 180 ? step - 360 : step < -180 ? step + 360 : step;
}

static double
seventh_root (double c)
{
  return sqrt (pow (c, 7) / (pow (c, 7) + pow (25, 7)));
}

static double
difference (Lab p, Lab q)
{
  double g = 0.5 * (1 - seventh_root ((hypot (p.a, p.b) + hypot (q.a, q.b)) / 2));
  double a1 = (1 + g) * p.a, a2 = (1 + g) * q.a;
  double c1 = hypot (a1, p.b), c2 = hypot (a2, q.b);
  double h1 = hue_of (a1, p.b), h2 = hue_of (a2, q.b);
  gboolean grey = c1 * c2 == 0;
  double dl = q.l - p.l, dc = c2 - c1;
  double dh = 2 * sqrt (c1 * c2) * sin (hue_step (h1, h2, grey) / 2 * G_PI / 180);
  double l = (p.l + q.l) / 2, c = (c1 + c2) / 2, h = mean_hue (h1, h2, grey);
  double t = 1 - 0.17 * cos_deg (h - 30) + 0.24 * cos_deg (2 * h) + 0.32 * cos_deg (3 * h + 6)
             - 0.20 * cos_deg (4 * h - 63);
  double sl = 1 + 0.015 * (l - 50) * (l - 50) / sqrt (20 + (l - 50) * (l - 50));
  double sc = 1 + 0.045 * c, sh = 1 + 0.015 * c * t;
  double turn = 60 * exp (-((h - 275) / 25) * ((h - 275) / 25));
  double rt = -2 * seventh_root (c) * sin (turn * G_PI / 180);
  return sqrt (dl / sl * dl / sl + dc / sc * dc / sc + dh / sh * dh / sh + rt * dc / sc * dh / sh);
}

/* Pairs 1, 4, 7, 9, 13, 17, 19, 25 and 34 of the paper's table, with its four decimals. Among
 * them are greys, hues on both sides of 0° and a dark and a light pair. */
static void
test_formula (void)
{
  const struct
  {
    Lab p, q;
    double difference;
  } pairs[] = {
    { { 50, 2.6772, -79.7751 }, { 50, 0, -82.7485 }, 2.0425 },
    { { 50, -1.3802, -84.2814 }, { 50, 0, -82.7485 }, 1.0000 },
    { { 50, 0, 0 }, { 50, -1, 2 }, 2.3669 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0009 }, 7.1792 },
    { { 50, -0.0010, 2.4900 }, { 50, 0.0009, -2.4900 }, 4.8045 },
    { { 50, 2.5, 0 }, { 73, 25, -18 }, 27.1492 },
    { { 50, 2.5, 0 }, { 56, -27, -3 }, 31.9030 },
    { { 60.2574, -34.0099, 36.2677 }, { 60.4626, -34.1751, 39.4387 }, 1.2644 },
    { { 2.0776, 0.0795, -1.1350 }, { 0.9033, -0.0636, -0.5514 }, 0.9082 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_assert_cmpfloat_with_epsilon (difference (pairs[i].p, pairs[i].q), pairs[i].difference,
                                      0.5e-4);
      g_assert_cmpfloat_with_epsilon (difference (pairs[i].q, pairs[i].p), pairs[i].difference,
                                      0.5e-4);
    }
}

static const struct
{
  const char *name;
  double m[3][3];
} eyes[] = {
  { "normal", { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } },
  { "protan",
    { { 0.152286, 1.052583, -0.204868 },
      { 0.114503, 0.786281, 0.099216 },
      { -0.003882, -0.048116, 1.051998 } } },
  { "deutan",
    { { 0.367322, 0.860646, -0.227968 },
      { 0.280085, 0.672501, 0.047413 },
      { -0.011820, 0.042940, 0.968881 } } },
  { "tritan",
    { { 1.255528, -0.076749, -0.178779 },
      { -0.078411, 0.930809, 0.147602 },
      { 0.004733, 0.691367, 0.303900 } } },
};

static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

static double
lab_root (double t)
{
  const double d = 6.0 / 29;
  return t > d * d * d ? cbrt (t) : t / (3 * d * d) + 4.0 / 29;
}

/* sRGB as that eye sees it, in CIELAB under D65. */
static Lab
see (RenderColour colour, guint eye)
{
  double rgb[] = { linear (colour.r), linear (colour.g), linear (colour.b) }, seen[3];
  for (int i = 0; i < 3; i++)
    {
      const double *m = eyes[eye].m[i];
      seen[i] = CLAMP (m[0] * rgb[0] + m[1] * rgb[1] + m[2] * rgb[2], 0, 1);
    }
  double x = 0.4124564 * seen[0] + 0.3575761 * seen[1] + 0.1804375 * seen[2];
  double y = 0.2126729 * seen[0] + 0.7151522 * seen[1] + 0.0721750 * seen[2];
  double z = 0.0193339 * seen[0] + 0.1191920 * seen[1] + 0.9503041 * seen[2];
  double fx = lab_root (x / 0.95047), fy = lab_root (y), fz = lab_root (z / 1.08883);
  return (Lab){ 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz) };
}

/* White stays white for every eye, so no row of a matrix was written down wrongly by much. */
static void
test_eyes (void)
{
  for (guint eye = 0; eye < G_N_ELEMENTS (eyes); eye++)
    for (int i = 0; i < 3; i++)
      {
        const double *m = eyes[eye].m[i];
        g_assert_cmpfloat_with_epsilon (m[0] + m[1] + m[2], 1, 1e-5);
      }
}

static void
test_states_apart (void)
{
  double least = INFINITY;
  for (guint eye = 0; eye < G_N_ELEMENTS (eyes); eye++)
    for (int dark = 0; dark <= 1; dark++)
      for (RenderState a = RENDER_STATE_TOUCHING; a <= RENDER_STATE_NOT_CHECKED; a++)
        for (RenderState b = a + 1; b <= RENDER_STATE_NOT_CHECKED; b++)
          {
            double d = difference (see (render_state_colour (a, dark), eye),
                                   see (render_state_colour (b, dark), eye));
            if (d < LEAST_DIFFERENCE)
              g_test_message ("%s, dark %d: states %d and %d differ by %.1f", eyes[eye].name, dark,
                              (int)a, (int)b, d);
            g_assert_cmpfloat (d, >=, LEAST_DIFFERENCE);
            least = fmin (least, d);
          }
  g_test_message ("least difference: %.1f", least);
}

/* Gear is told from load, structures, other components and ground, and from the states of what
 * falls short, is tight or is met, for every eye. Two bodies that differ by 10 are told apart side
 * by side, as sand and warm grey are (13). */
static void
test_gear_apart (void)
{
  static const RenderRole roles[]
      = { RENDER_ROLE_LOAD, RENDER_ROLE_STRUCTURE, RENDER_ROLE_COMPONENT, RENDER_ROLE_GROUND };
  static const RenderState states[]
      = { RENDER_STATE_TOUCHING, RENDER_STATE_SHORT, RENDER_STATE_TIGHT, RENDER_STATE_CLEAR };
  for (guint eye = 0; eye < G_N_ELEMENTS (eyes); eye++)
    for (int dark = 0; dark <= 1; dark++)
      {
        const RenderPalette *palette = render_palette_get (dark);
        Lab gear = see (palette->faces[RENDER_ROLE_GEAR], eye);
        for (guint i = 0; i < G_N_ELEMENTS (roles); i++)
          g_assert_cmpfloat (difference (gear, see (palette->faces[roles[i]], eye)), >=, 10);
        for (guint i = 0; i < G_N_ELEMENTS (states); i++)
          g_assert_cmpfloat (difference (gear, see (render_state_colour (states[i], dark), eye)),
                             >=, 12);
      }
}

static double
luminance (RenderColour c)
{
  return 0.2126 * linear (c.r) + 0.7152 * linear (c.g) + 0.0722 * linear (c.b);
}

static double
contrast (RenderColour a, RenderColour b)
{
  double la = luminance (a), lb = luminance (b);
  return (fmax (la, lb) + 0.05) / (fmin (la, lb) + 0.05);
}

static RenderColour
grey (double value)
{
  return (RenderColour){ value, value, value, 1 };
}

/* On the view's own paper, on the plates of labels, and on white and the darkest grey that a
 * window has. A plate lets a little through; what is behind it is at worst black or white. */
static void
test_text (void)
{
  g_assert_cmpfloat_with_epsilon (contrast (grey (0), grey (1)), 21, 1e-9);
  for (int dark = 0; dark <= 1; dark++)
    for (RenderState state = RENDER_STATE_NONE; state <= RENDER_STATE_NOT_CHECKED; state++)
      {
        RenderColour text = render_state_text_colour (state, dark);
        g_assert_cmpfloat (contrast (text, render_paper_colour (dark)), >=, LEAST_CONTRAST);
        g_assert_cmpfloat (contrast (text, dark ? grey (0.12) : grey (1)), >=, LEAST_CONTRAST);
        g_assert_cmpfloat (contrast (text, dark ? grey (0.21) : grey (0.96)), >=, LEAST_CONTRAST);
        RenderColour plate = render_plate_colour (dark);
        double behind = (1 - plate.a) * (dark ? 0 : 1);
        RenderColour seen = { plate.r * plate.a + behind, plate.g * plate.a + behind,
                              plate.b * plate.a + behind, 1 };
        g_assert_cmpfloat (contrast (render_plate_text_colour (state, dark), seen), >=,
                           LEAST_CONTRAST);
      }
}

static RenderColour
over (RenderColour colour, double alpha, RenderColour paper)
{
  const double rest = 1 - alpha;
  return (RenderColour){ colour.r * alpha + paper.r * rest, colour.g * alpha + paper.g * rest,
                         colour.b * alpha + paper.b * rest, 1 };
}

/* The quiet texts of plots are ink that the paper comes through. */
static void
test_quiet (void)
{
  for (int dark = 0; dark <= 1; dark++)
    {
      const RenderColour ink = render_ink_colour (dark);
      const RenderColour papers[] = { render_paper_colour (dark), dark ? grey (0.12) : grey (1),
                                      dark ? grey (0.21) : grey (0.96) };
      for (guint i = 0; i < G_N_ELEMENTS (papers); i++)
        g_assert_cmpfloat (contrast (over (ink, ink.a * RENDER_PLOT_QUIET, papers[i]), papers[i]),
                           >=, LEAST_CONTRAST);
    }
}

/* A mark is seen on any body by itself or by its casing: one of the two stands out. */
static void
test_casing (void)
{
  for (int dark = 0; dark <= 1; dark++)
    for (RenderState state = RENDER_STATE_TOUCHING; state <= RENDER_STATE_NOT_CHECKED; state++)
      g_assert_cmpfloat (
          contrast (render_state_colour (state, dark), render_state_casing_colour (state, dark)),
          >=, 2.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/palette/formula", test_formula);
  g_test_add_func ("/render/palette/eyes", test_eyes);
  g_test_add_func ("/render/palette/states-apart", test_states_apart);
  g_test_add_func ("/render/palette/gear-apart", test_gear_apart);
  g_test_add_func ("/render/palette/text", test_text);
  g_test_add_func ("/render/palette/quiet", test_quiet);
  g_test_add_func ("/render/palette/casing", test_casing);
  return g_test_run ();
}
