/* test-render.c: `trunnion render` as it is run: pictures that hold what they should, exit
 * statuses, and what is never written. The program is the one in TRUNNION_PROGRAM; the demos are
 * below TRUNNION_SOURCE_FOLDER. Every test has an empty folder. */
#include "program.h"

#include <cairo.h>

#define GATE "assets-demo/lock-gate/lock-gate.trunnion"

typedef struct
{
  char *folder, *plan, *picture;
  char *err;
  GBytes *out;
  int status; /* −1: ended by a signal */
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = test_folder_new ();
  f->plan = g_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), GATE, NULL);
  f->picture = g_build_filename (f->folder, "a.png", NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  test_folder_free (f->folder);
  g_free (f->plan);
  g_free (f->picture);
  g_free (f->err);
  g_clear_pointer (&f->out, g_bytes_unref);
}

/* Runs `trunnion render` on the gate with the options in @line, split at spaces, and with the
 * variable @name of the environment set to @value where it is not NULL. */
static void
run_with (Fixture *f, const char *line, const char *name, const char *value)
{
  g_autofree char *all = g_strdup_printf ("render %s %s", f->plan, line);
  f->status = test_program_run (f->folder, all, name, value, &f->out, &f->err);
}

static void
run (Fixture *f, const char *line)
{
  run_with (f, line, NULL, NULL);
}

static cairo_surface_t *
read_picture (const Fixture *f, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create_from_png (f->picture);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, width);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, height);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  guint32 value;
  memcpy (&value,
          cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface)
              + 4 * x,
          sizeof value);
  return value & 0xFFFFFF;
}

/* Pixels of about that colour: each channel within 12 of 255. */
static guint
count_colour (cairo_surface_t *surface, guint32 colour)
{
  guint n = 0;
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        guint32 p = pixel (surface, x, y);
        gboolean same = TRUE;
        for (int shift = 0; shift <= 16; shift += 8)
          same &= ABS ((int)(p >> shift & 255) - (int)(colour >> shift & 255)) <= 12;
        n += same;
      }
  return n;
}

/* Of all pixels, those that are warm like the load: clearly more red than blue. */
static guint
count_warm (cairo_surface_t *surface)
{
  guint n = 0;
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      {
        guint32 p = pixel (surface, x, y);
        n += (int)(p >> 16 & 255) - (int)(p & 255) > 40;
      }
  return n;
}

/* The gate falls short at its canopy: the picture has the load, and the colour of what is short. */
static void
test_closest (Fixture *f, gconstpointer data)
{
  run (f, "--closest --size 800x600 -o a.png");
  g_assert_cmpint (f->status, ==, 0);
  g_assert_cmpstr (f->err, ==, "");
  g_assert_cmpuint (g_bytes_get_size (f->out), ==, 0);
  g_assert_cmpuint (test_folder_count (f->folder), ==, 1);
  cairo_surface_t *picture = read_picture (f, 800, 600);
  g_assert_cmpuint (count_warm (picture), >, 800 * 600 / 50);
  g_assert_cmpuint (count_colour (picture, 0xD55E00), >, 30);
  cairo_surface_destroy (picture);
}

/* The same moment without the check, from the side: light with its marks, and dark without. */
static void
test_views (Fixture *f, gconstpointer data)
{
  run (f, "--time 0:43:05 --view east --size 600x400 -o a.png");
  g_assert_cmpint (f->status, ==, 0);
  cairo_surface_t *light = read_picture (f, 600, 400);
  g_assert_cmpuint (count_warm (light), >, 2000);
  run (f, "--time 2585 --view east --size 600x400 --dark --clean -o a.png");
  g_assert_cmpint (f->status, ==, 0);
  cairo_surface_t *dark = read_picture (f, 600, 400);
  /* The sky: light in the one, dark in the other. */
  g_assert_cmpuint (pixel (light, 5, 5) >> 8 & 255, >, 200);
  g_assert_cmpuint (pixel (dark, 5, 5) >> 8 & 255, <, 60);
  /* Clean: nothing in the colour of a state. */
  g_assert_cmpuint (count_colour (dark, 0xD55E00), ==, 0);
  cairo_surface_destroy (light);
  cairo_surface_destroy (dark);
}

/* Seen from above and cut just over the ground, the load, which hangs above, is not there. */
static void
test_section (Fixture *f, gconstpointer data)
{
  run (f, "--time 0:43:05 --view plan --clean --size 400x400 -o a.png");
  cairo_surface_t *whole = read_picture (f, 400, 400);
  run (f, "--time 0:43:05 --view plan --clean --size 400x400 --section z=0.1 -o a.png");
  g_assert_cmpint (f->status, ==, 0);
  cairo_surface_t *cut = read_picture (f, 400, 400);
  g_assert_cmpuint (count_warm (whole), >, 1000);
  g_assert_cmpuint (count_warm (cut), ==, 0);
  cairo_surface_destroy (whole);
  cairo_surface_destroy (cut);
}

static void
test_standard_output (Fixture *f, gconstpointer data)
{
  run (f, "--size 64x64 --clean -o -");
  g_assert_cmpint (f->status, ==, 0);
  g_assert_cmpuint (g_bytes_get_size (f->out), >, 100);
  g_assert_cmpmem (g_bytes_get_data (f->out, NULL), 8, "\x89PNG\r\n\x1a\n", 8);
  g_assert_cmpuint (test_folder_count (f->folder), ==, 0);
}

/* A line, the status that it must end with; nothing is written. */
static void
test_refused (Fixture *f, gconstpointer data)
{
  const struct
  {
    const char *line;
    int status;
  } cases[] = {
    { "", 2 },
    { "--time 99:00:00 -o a.png", 2 },
    { "--lift nobody -o a.png", 2 },
    { "-o nowhere/a.png", 4 },
    { "-o .", 4 },
    { "--deviation 0.00001 -o a.png", 2 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      run (f, cases[i].line);
      g_assert_cmpint (f->status, ==, cases[i].status);
      g_assert_true (g_str_has_prefix (f->err, "error: "));
      g_assert_cmpuint (test_folder_count (f->folder), ==, 0);
    }
}

/* The plan never gives way to a picture: a crate on its own, in the folder of the test. */
static void
test_input_stays (Fixture *f, gconstpointer data)
{
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.5, \"structures\": [], "
        "\"components\": ["
        "{\"id\": \"crate\", \"solid\": {\"kind\": \"box\", \"size\": [2, 2, 2]},"
        " \"mass\": 1000,"
        " \"at\": {\"position\": [0, 0, 0]}}], \"programme\": [{\"lift\": \"up\","
        " \"component\": \"crate\", \"hook_point\": [0, 0, 2],"
        " \"moves\": [{\"do\": \"hoist\", \"by\": 3, \"seconds\": 60}]}]}";
  g_free (f->plan);
  f->plan = g_build_filename (f->folder, "crate.trunnion", NULL);
  g_assert_true (g_file_set_contents (f->plan, text, -1, NULL));
  run (f, "-o crate.trunnion");
  g_assert_cmpint (f->status, ==, 2);
  g_autofree char *after = NULL;
  g_assert_true (g_file_get_contents (f->plan, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, text);
  /* Nothing stands on this site, so that nothing is closest; the lift itself can be drawn. */
  run (f, "--closest -o a.png");
  g_assert_cmpint (f->status, ==, 2);
  g_assert_cmpuint (test_folder_count (f->folder), ==, 1);
  run (f, "--size 64x64 -o a.png");
  g_assert_cmpint (f->status, ==, 0);
}

/* A crate of 2 m that starts inside a shed of 6 × 6 × 4 m and is hoisted out of it by 8 m: its
 * distance is 0 while it is wholly inside, 1 m above the ground and below the roof, and 5 m at the
 * end. Inside, the marks and the double line of what touches are there, in black and seen through
 * the roof; nothing is in the colour of what is clear. At
 * the end it is the other way round, and a clean picture of the inside has neither. */
static void
test_inside (Fixture *f, gconstpointer data)
{
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.5, \"structures\": ["
        "{\"id\": \"shed\", \"name\": \"Shed\", \"solid\": {\"kind\": \"box\", \"size\": [6, 6, "
        "4]},"
        " \"at\": {\"position\": [0, 0, 0]}}], \"components\": ["
        "{\"id\": \"crate\", \"solid\": {\"kind\": \"box\", \"size\": [2, 2, 2]},"
        " \"at\": {\"position\": [0, 0, 1]}}], \"programme\": [{\"lift\": \"up\","
        " \"component\": \"crate\", \"hook_point\": [0, 0, 2],"
        " \"moves\": [{\"do\": \"hoist\", \"by\": 8, \"seconds\": 60}]}]}";
  g_free (f->plan);
  f->plan = g_build_filename (f->folder, "crate.trunnion", NULL);
  g_assert_true (g_file_set_contents (f->plan, text, -1, NULL));
  const struct
  {
    const char *line;
    gboolean touches, is_clear;
  } cases[] = { { "--time 0 --size 800x600 -o a.png", TRUE, FALSE },
                { "--time 60 --size 800x600 -o a.png", FALSE, TRUE },
                { "--time 0 --size 800x600 --clean -o a.png", FALSE, FALSE } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      run (f, cases[i].line);
      g_assert_cmpint (f->status, ==, 0);
      cairo_surface_t *picture = read_picture (f, 800, 600);
      guint n_black = count_colour (picture, 0x000000);
      guint n_clear = count_colour (picture, 0x0072B2);
      g_test_message ("%s: %u black, %u clear", cases[i].line, n_black, n_clear);
      g_assert_true (cases[i].touches ? n_black > 100 : n_black < 20);
      g_assert_true (cases[i].is_clear ? n_clear > 100 : n_clear == 0);
      cairo_surface_destroy (picture);
    }
}

/* Without OpenGL: status 5, a word about it, no file; what was there before stays. */
static void
test_no_opengl (Fixture *f, gconstpointer data)
{
  g_assert_true (g_file_set_contents (f->picture, "before", -1, NULL));
  run_with (f, "--clean -o a.png", "__EGL_VENDOR_LIBRARY_FILENAMES", "/nonexistent.json");
  g_assert_cmpint (f->status, ==, 5);
  g_assert_nonnull (strstr (f->err, "OpenGL"));
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (f->picture, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "before");
  g_assert_cmpuint (test_folder_count (f->folder), ==, 1);
}

/* Ctrl-C after a while; FALSE: so early that the program was not yet listening. */
static gboolean
interrupt (Fixture *f, double after_s, char **err)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocessLauncher) launcher
      = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDERR_PIPE);
  g_subprocess_launcher_set_cwd (launcher, f->folder);
  g_autoptr (GSubprocess) process
      = g_subprocess_launcher_spawn (launcher, &error, g_getenv ("TRUNNION_PROGRAM"), "render",
                                     f->plan, "--size", "16000x10000", "-o", "a.png", NULL);
  g_assert_no_error (error);
  g_usleep ((gulong)(after_s * G_USEC_PER_SEC));
  g_subprocess_send_signal (process, SIGINT);
  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, NULL, err, &error));
  if (g_subprocess_get_if_signaled (process))
    return FALSE;
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, 130);
  return TRUE;
}

/* While a large picture is drawn, which takes many times as long, it ends soon, and leaves no file.
 * A machine with much to do starts it late. */
static void
test_interrupt (Fixture *f, gconstpointer data)
{
  g_autofree char *err = NULL;
  double after_s = 1.5;
  while (!interrupt (f, after_s, &err))
    {
      g_clear_pointer (&err, g_free);
      after_s *= 2;
      g_assert_cmpfloat (after_s, <, 10);
    }
  g_assert_nonnull (strstr (err, "nterrupted"));
  g_assert_null (strstr (err, "rror"));
  g_assert_cmpuint (test_folder_count (f->folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  const struct
  {
    const char *name;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = { { "closest", test_closest },    { "views", test_views },
                { "section", test_section },    { "standard-output", test_standard_output },
                { "refused", test_refused },    { "input-stays", test_input_stays },
                { "inside", test_inside },      { "no-opengl", test_no_opengl },
                { "interrupt", test_interrupt } };
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/cli/render/", tests[i].name, NULL);
      g_test_add (path, Fixture, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
