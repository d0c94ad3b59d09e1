/* The programme played through: poses after every move by closed form, what stands when, and every
 * fault with its place. No mesh is touched. */
#include "test-plan.h"

#define NEAR 1e-9

/* One box that is lifted, by @moves; the box's own frame is the site's at the start. */
static TrnProgramme *
play_moves (const char *at, const char *hook, const char *moves)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'structures': [], 'gear': [],"
      " 'components': [{'id': 'box', 'name': 'Box', 'solid': {'kind': 'box', 'size': [2, 2, 2]},"
      "   'mass': 1000, 'points': {'head': [0, 0, 10], 'tail': [0, 0, 0], 'side': [3, 0, 0]},"
      "   'at': %s}],"
      " 'programme': [{'lift': 'l', 'component': 'box', 'hook_point': %s, 'moves': [%s]}]}",
      at, hook, moves);
  return test_programme (text);
}

static TrnVec3
end_of (const TrnProgramme *programme, double x, double y, double z)
{
  return trn_pose_apply (&programme->runs[0].end, trn_vec3_make (x, y, z));
}

/* Hoist, travel and wait add up; times are sums of the seconds. */
static void
test_straight (void)
{
  g_autoptr (TrnProgramme) programme
      = play_moves ("{'position': [1, 2, 3]}", "[0, 0, 2]",
                    "{'do': 'hoist', 'by': 4, 'seconds': 10}, {'do': 'wait', 'seconds': 0},"
                    "{'do': 'travel', 'by': [5, -6], 'seconds': 2.5},"
                    "{'do': 'hoist', 'by': -1, 'seconds': 1}");
  test_assert_near (end_of (programme, 0, 0, 0), 6, -4, 6, NEAR);
  const TrnLiftRun *run = &programme->runs[0];
  const double begins[] = { 0, 10, 10, 12.5, 13.5 };
  for (guint i = 0; i < G_N_ELEMENTS (begins); i++)
    g_assert_cmpfloat (run->begins_s[i], ==, begins[i]);
  g_assert_false (run->starts_elsewhere);
}

/* Axis 0 and by +90: what pointed up points to −Y (contract). The point about which it tilts stays,
 * or goes by the carry. */
static void
test_tilt (void)
{
  g_autoptr (TrnProgramme) fixed
      = play_moves ("{'position': [0, 0, 0]}", "[0, 0, 2]",
                    "{'do': 'tilt', 'by': 90, 'axis': 0, 'about': 'tail', 'seconds': 1}");
  test_assert_near (end_of (fixed, 0, 0, 10), 0, -10, 0, NEAR);
  test_assert_near (end_of (fixed, 0, 0, 0), 0, 0, 0, NEAR);
  test_assert_near (end_of (fixed, 3, 0, 0), 3, 0, 0, NEAR);

  /* Axis 90 is +Y: up goes to +X. About the hook point by default: (0, 0, 2) goes by the carry. */
  g_autoptr (TrnProgramme) carried
      = play_moves ("{'position': [0, 0, 0]}", "[0, 0, 2]",
                    "{'do': 'tilt', 'by': 90, 'axis': 90, 'carry': [1, 2, 3], 'seconds': 1}");
  test_assert_near (end_of (carried, 0, 0, 2), 1, 2, 5, NEAR);
  test_assert_near (end_of (carried, 0, 0, 10), 9, 2, 5, NEAR);
}

/* A turn about a point beside the hook, and a move with a turn. */
static void
test_turn (void)
{
  g_autoptr (TrnProgramme) turn
      = play_moves ("{'position': [0, 0, 0]}", "[0, 0, 2]",
                    "{'do': 'turn', 'by': 90, 'about': 'side', 'seconds': 1}");
  test_assert_near (end_of (turn, 3, 0, 0), 3, 0, 0, NEAR);
  test_assert_near (end_of (turn, 0, 0, 0), 3, -3, 0, NEAR);

  g_autoptr (TrnProgramme) move
      = play_moves ("{'position': [0, 0, 0]}", "[0, 0, 2]",
                    "{'do': 'move', 'by': [1, 1, 1], 'turn': -90, 'seconds': 1}");
  test_assert_near (end_of (move, 0, 0, 0), 1, 1, 1, NEAR);
  test_assert_near (end_of (move, 3, 0, 0), 1, -2, 1, NEAR);
}

/* The hook goes from (10, 0) round the origin by 90 degrees, 2 m farther out and 3 m higher; a
 * point 3 m outside of it stays outside, or stays to the east when the load keeps its heading. */
static void
test_slew (void)
{
  const char *slew = "{'do': 'slew', 'by': 90, 'centre': [0, 0], 'radius_by': 2, 'hoist_by': 3,"
                     " 'load_turns': %s, 'seconds': 1}";
  g_autofree char *turning = g_strdup_printf (slew, "true");
  g_autofree char *keeping = g_strdup_printf (slew, "false");
  g_autoptr (TrnProgramme) with = play_moves ("{'position': [10, 0, 0]}", "[0, 0, 2]", turning);
  test_assert_near (end_of (with, 0, 0, 0), 0, 12, 3, NEAR);
  test_assert_near (end_of (with, 3, 0, 0), 0, 15, 3, NEAR);
  g_autoptr (TrnProgramme) without = play_moves ("{'position': [10, 0, 0]}", "[0, 0, 2]", keeping);
  test_assert_near (end_of (without, 3, 0, 0), 3, 12, 3, NEAR);
}

/* Two-hook up-ending: the load lies along +X, tail at the origin, head 10 m along. Turned by −90
 * about +Y the head comes up over where it was; it stays on its vertical, so the tail travels from
 * x = 0 to x = 10 on its level. Half way, at 45 degrees, the tail is at 10 − 10 cos 45. */
static void
test_head_plumb (void)
{
  g_autoptr (TrnProgramme) programme
      = play_moves ("{'position': [0, 0, 1], 'turn': [0, 90, 0]}", "'head'",
                    "{'do': 'tilt', 'by': -90, 'axis': 90, 'guide': 'head-plumb', 'head': 'head',"
                    " 'tail': 'tail', 'seconds': 1}");
  const TrnMotion *motion = &programme->runs[0].motions[0];
  TrnPose half = trn_motion_pose (motion, 0.5);
  double c = sqrt (0.5);
  test_assert_near (trn_pose_apply (&motion->start, (TrnVec3){ 0, 0, 10 }), 10, 0, 1, NEAR);
  test_assert_near (trn_pose_apply (&half, (TrnVec3){ 0, 0, 0 }), 10 - 10 * c, 0, 1, NEAR);
  test_assert_near (trn_pose_apply (&half, (TrnVec3){ 0, 0, 10 }), 10, 0, 1 + 10 * c, NEAR);
  test_assert_near (end_of (programme, 0, 0, 0), 10, 0, 1, NEAR);
  test_assert_near (end_of (programme, 0, 0, 10), 10, 0, 11, NEAR);
}

/* ---- what stands ---- */

#define SITE                                                                                       \
  "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5,"                                   \
  " 'gear': [{'id': 'crane', 'kind': 'crane', 'at': null,"                                         \
  "    'boom': {'foot': [0, 1], 'length': 20, 'section': [1, 1]}},"                                \
  "   {'id': 'frame', 'kind': 'turning-frame', 'at': null, 'pivot': 1, 'size': [0.2, 1, 1.5],"     \
  "    'spacing': 2, 'keep_clear': 0.1, 'keep_clear_from': {'load': 0.15}}],"                      \
  " 'structures': [{'id': 'wall', 'name': 'Wall', 'solid': {'kind': 'box', 'size': [1, 9, 9]},"    \
  "    'at': {'position': [50, 0, 0]}, 'survey_tolerance': 0.01},"                                 \
  "   {'id': 'prop', 'name': 'Prop', 'solid': {'kind': 'box', 'size': [1, 1, 9]}, 'at': null,"     \
  "    'keep_clear': 0.2}],"                                                                       \
  " 'components': ["                                                                               \
  "   {'id': 'a', 'name': 'A', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'mass': 1,"            \
  "    'at': {'position': [0, 0, 0]}},"                                                            \
  "   {'id': 'b', 'name': 'B', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'mass': 1,"            \
  "    'at': {'position': [5, 0, 0]}},"                                                            \
  "   {'id': 'c', 'name': 'C', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'mass': 1,"            \
  "    'at': null},"                                                                               \
  "   {'id': 'd', 'name': 'D', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'mass': 1,"            \
  "    'at': null}],"                                                                              \
  " 'programme': ["

#define LIFT(id, component, more)                                                                  \
  "{'lift': '" id "', 'component': '" component "', 'hook_point': [0, 0, 1], " more                \
  " 'moves': [{'do': 'hoist', 'by': 10, 'seconds': 1}]}"

static const TrnStanding *
standing (const TrnProgramme *programme, guint lift, const char *id)
{
  const TrnLiftRun *run = &programme->runs[lift];
  for (guint i = 0; i < run->n_standing; i++)
    if (strcmp (run->standing[i].id, id) == 0)
      return &run->standing[i];
  return NULL;
}

/* Lift a; then b sees a where it was left; a prop is added; a is swapped for c, which takes its
 * place; the prop goes. */
static void
test_state (void)
{
  g_autoptr (TrnProgramme) programme = test_programme (
      SITE LIFT ("one", "a",
                 "") ","
                     "{'change': 'p', 'add': 'prop', 'at': {'position': [1, 2, 3]}}," LIFT (
                         "two", "b",
                         "'keep_clear': {'wall': 0.7},") ","
                                                         "{'change': 's', 'swap': {'component': "
                                                         "'a', 'with': 'c'}},"
                                                         "{'change': 'r', 'remove': 'prop'}," LIFT (
                                                             "three", "c", "") "]}");
  g_assert_cmpuint (programme->n_runs, ==, 3);
  g_assert_cmpuint (programme->runs[0].n_standing, ==, 2);
  g_assert_nonnull (standing (programme, 0, "wall"));
  g_assert_null (standing (programme, 0, "a"));
  test_assert_near (standing (programme, 0, "b")->site_from_standing.position, 5, 0, 0, NEAR);
  g_assert_cmpfloat (standing (programme, 0, "wall")->survey_tolerance_m, ==, 0.01);
  g_assert_cmpfloat (standing (programme, 0, "wall")->required_m, ==, 0.5);

  test_assert_near (standing (programme, 1, "a")->site_from_standing.position, 0, 0, 10, NEAR);
  test_assert_near (standing (programme, 1, "prop")->site_from_standing.position, 1, 2, 3, NEAR);
  g_assert_cmpfloat (standing (programme, 1, "prop")->required_m, ==, 0.2);
  g_assert_cmpfloat (standing (programme, 1, "wall")->required_m, ==, 0.7);

  g_assert_null (standing (programme, 2, "a"));
  g_assert_null (standing (programme, 2, "prop"));
  test_assert_near (programme->runs[2].start.position, 0, 0, 10, NEAR);
  test_assert_near (standing (programme, 2, "b")->site_from_standing.position, 5, 0, 10, NEAR);
}

/* A crane comes, then a frame; the crane goes. Each lift has what stands then after the components,
 * with the clearance that the load keeps from it, and its rig has the same places. */
static void
test_gear (void)
{
  g_autoptr (TrnProgramme) programme = test_programme (
      SITE
      "{'change': 'x', 'add': 'crane', 'at': {'position': [20, 1, 0], 'turn': [90, 0, 0]}}," LIFT (
          "one", "a",
          "'rigging': {'main': {'gear': 'crane', 'hook_above': 2}},") ","
                                                                      "{'change': 'y', 'add': "
                                                                      "'frame', 'at': {'position': "
                                                                      "[30, 2, 0]}}," LIFT (
                                                                          "two", "a",
                                                                          "'keep_clear': {'crane': "
                                                                          "0.7},") ","
                                                                                   "{'change': "
                                                                                   "'z', 'remove': "
                                                                                   "'crane'}"
                                                                                   "," LIFT (
                                                                                       "three", "a",
                                                                                       "") "]}");
  g_assert_null (standing (programme, 0, "frame"));
  const TrnLiftRun *first = &programme->runs[0], *second = &programme->runs[1];
  g_assert_cmpuint (first->n_standing, ==, 3);
  const TrnStanding *crane = &first->standing[2];
  g_assert_cmpstr (crane->id, ==, "crane");
  g_assert_cmpint (crane->kind, ==, TRN_STANDING_GEAR);
  g_assert_cmpuint (crane->index, ==, 0);
  g_assert_cmpfloat (crane->required_m, ==, 0.5);
  test_assert_near (trn_pose_apply (&crane->site_from_standing, (TrnVec3){ 3, 0, 0 }), 20, 4, 0,
                    NEAR);
  g_assert_cmpuint (first->rig->n_places, ==, 1);
  g_assert_true (first->rig->places[0].gear == &programme->plan->gear[0]);
  test_assert_near (first->rig->places[0].site_from_gear.position, 20, 1, 0, NEAR);
  g_assert_true (first->rig->lift == first->lift && first->rig->motions == first->motions);

  g_assert_cmpuint (second->rig->n_places, ==, 2);
  g_assert_cmpfloat (standing (programme, 1, "crane")->required_m, ==, 0.7);
  g_assert_cmpfloat (standing (programme, 1, "frame")->required_m, ==, 0.15);
  g_assert_cmpint (standing (programme, 1, "frame")->kind, ==, TRN_STANDING_GEAR);
  g_assert_cmpint (standing (programme, 1, "wall")->kind, ==, TRN_STANDING_STRUCTURE);
  g_assert_cmpint (standing (programme, 1, "b")->kind, ==, TRN_STANDING_COMPONENT);

  g_assert_null (standing (programme, 2, "crane"));
  g_assert_cmpuint (programme->runs[2].rig->n_places, ==, 1);
  g_assert_true (programme->runs[2].rig->places[0].gear == &programme->plan->gear[1]);
}

/* Without gear or rigging there is a rig without bodies. */
static void
test_no_gear (void)
{
  g_autoptr (TrnProgramme) programme = test_programme (SITE LIFT ("one", "a", "") "]}");
  g_assert_nonnull (programme->runs[0].rig);
  g_assert_cmpuint (programme->runs[0].rig->n_places, ==, 0);
  g_assert_cmpuint (programme->runs[0].rig->n_bodies, ==, 0);
}

/* A point 5 m plumb below the hook point comes to lie 5 m beside it when the load tilts by 90
 * degrees: a sling of 4 m then reaches it in the first move, not from the second on. */
static void
test_sling_later (void)
{
#define TILTED(moves)                                                                              \
  SITE "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1], 'moves': ["                     \
       "{'do': 'tilt', 'by': 90, 'axis': 0, 'seconds': 1},"                                        \
       "{'do': 'wait', 'seconds': 1}], 'rigging': {'main': {" moves                                \
       "'slings': [{'id': 's', 'to': [0, 0, -4], 'diameter': 0.02, 'length': 4}]}}}]}"
  g_autoptr (TrnProgramme) programme = test_programme (TILTED (""));
  g_assert_nonnull (programme->runs[0].rig);
  g_autoptr (TrnPlan) plan = test_plan (TILTED ("'moves': [1, 1], "));
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_programme_play (plan, diags));
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "scene/sling-short");
  g_assert_cmpfloat_with_epsilon (trn_diag_get (diag, "off")->number, 5, 1e-9);
}

/* A start that is elsewhere by more than a micrometre is noted, one by less is not. */
static void
test_start (void)
{
  g_autoptr (TrnProgramme) programme
      = test_programme (SITE LIFT ("one", "a", "'start': {'position': [0, 0, 5e-7]},") "," LIFT (
          "two", "a", "'start': {'position': [0, 0, 10.1]},") "]}");
  g_assert_false (programme->runs[0].starts_elsewhere);
  g_assert_true (programme->runs[1].starts_elsewhere);
  test_assert_near (programme->runs[1].start.position, 0, 0, 10.1, NEAR);
  test_assert_near (programme->runs[1].stands.position, 0, 0, 10 + 5e-7, NEAR);
}

/* ---- faults ---- */

typedef struct
{
  const char *name, *programme, *code, *pointer;
} Fault;

static const Fault faults[] = {
  { "load", LIFT ("one", "c", ""), "scene/load-not-on-site", "/programme/0/component" },
  { "load-start", LIFT ("one", "c", "'start': {'position': [0, 0, 0]},"), "scene/load-not-on-site",
    "/programme/0/component" },
  { "add-twice", "{'change': 'x', 'add': 'wall', 'at': {'position': [0, 0, 0]}}",
    "scene/already-on-site", "/programme/0/add" },
  { "add-nowhere", "{'change': 'x', 'add': 'prop'}", "scene/add-without-place", "/programme/0" },
  { "remove", "{'change': 'x', 'remove': 'prop'}", "scene/not-on-site", "/programme/0/remove" },
  { "swap-absent", "{'change': 'x', 'swap': {'component': 'c', 'with': 'd'}}", "scene/not-on-site",
    "/programme/0/swap/component" },
  { "swap-present", "{'change': 'x', 'swap': {'component': 'a', 'with': 'b'}}",
    "scene/already-on-site", "/programme/0/swap/with" },
  { "seat", LIFT ("one", "a", "'seats': [{'on': 'prop', 'at': 'start'}],"),
    "scene/seat-not-standing", "/programme/0/seats/0/on" },
  { "gear-twice",
    "{'change': 'w', 'add': 'frame', 'at': {'position': [9, 9, 0]}},"
    "{'change': 'x', 'add': 'frame', 'at': {'position': [9, 0, 0]}}",
    "scene/already-on-site", "/programme/1/add" },
  { "gear-nowhere", "{'change': 'x', 'add': 'frame'}", "scene/add-without-place", "/programme/0" },
  { "gear-gone", "{'change': 'x', 'remove': 'crane'}", "scene/not-on-site", "/programme/0/remove" },
  { "gear-main", LIFT ("one", "a", "'rigging': {'main': {'gear': 'crane'}},"),
    "scene/gear-not-standing", "/programme/0/rigging/main/gear" },
  { "gear-tail", LIFT ("one", "a", "'rigging': {'tail': {'gear': 'frame', 'point': [0, 0, 0]}},"),
    "scene/gear-not-standing", "/programme/0/rigging/tail/gear" },
  { "sling",
    LIFT ("one", "a",
          "'rigging': {'main': {'slings': [{'id': 's', 'to': [3, 0, 0], 'diameter': 0.02,"
          " 'length': 3}]}},"),
    "scene/sling-short", "/programme/0/rigging/main/slings/0/length" },
  { "slew",
    "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1], 'moves': ["
    "{'do': 'slew', 'by': 10, 'centre': [0, 0], 'seconds': 1}]}",
    "scene/slew-radius", "/programme/0/moves/0" },
  { "slew-end",
    "{'lift': 'one', 'component': 'b', 'hook_point': [0, 0, 1], 'moves': ["
    "{'do': 'slew', 'by': 10, 'centre': [0, 0], 'radius_by': -5, 'seconds': 1}]}",
    "scene/slew-radius", "/programme/0/moves/0" },
  { "head-plumb",
    "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1], 'moves': ["
    "{'do': 'tilt', 'by': 10, 'axis': 80, 'guide': 'head-plumb', 'head': [1, 0, 0],"
    " 'tail': [0, 0, 0], 'seconds': 1}]}",
    "scene/axis-not-square", "/programme/0/moves/0/axis" },
};

static void
test_fault (gconstpointer data)
{
  const Fault *fault = data;
  g_autofree char *text
      = g_strconcat (SITE, fault->programme, ",", LIFT ("end", "b", ""), "]}", NULL);
  g_autoptr (TrnPlan) plan = test_plan (text);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_programme_play (plan, diags));
  test_print_diags (diags);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, fault->code);
  g_assert_cmpstr (diag->pointer, ==, fault->pointer);
  g_assert_cmpuint (diag->line, ==, 1);
}

/* A hundred and one travels of 100 km, the most that a plan may say at once, leave the site. */
static void
test_too_far (void)
{
  GString *text = g_string_new (SITE "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1],"
                                     " 'moves': [{'do': 'wait', 'seconds': 1}");
  for (guint i = 0; i < 101; i++)
    g_string_append (text, ", {'do': 'travel', 'by': [1e5, 0], 'seconds': 1}");
  g_string_append (text, "]}]}");
  g_autoptr (TrnPlan) plan = test_plan (text->str);
  g_string_free (text, TRUE);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_programme_play (plan, diags));
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "scene/too-far");
  g_assert_cmpstr (diag->pointer, ==, "/programme/0/moves/101");
}

/* No clearance at all: one fault for each obstacle of each lift, all in one go, and the other
 * faults with them. */
static void
test_all_faults (void)
{
  g_autofree char *text = g_strdup (SITE LIFT ("one", "a", "") "," LIFT ("two", "c", "") "]}");
  char *keep = strstr (text, "'keep_clear': 0.5,");
  memset (keep, ' ', strlen ("'keep_clear': 0.5,"));
  g_autoptr (TrnPlan) plan = test_plan (text);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_programme_play (plan, diags));
  const struct
  {
    const char *code, *obstacle;
  } expected[] = {
    { "scene/no-clearance", "wall" }, { "scene/no-clearance", "b" },
    { "scene/no-clearance", "wall" }, { "scene/no-clearance", "a" },
    { "scene/no-clearance", "b" },    { "scene/load-not-on-site", NULL },
  };
  test_print_diags (diags);
  g_assert_cmpuint (diags->items->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_assert_cmpstr (diag->code, ==, expected[i].code);
      const TrnDiagValue *obstacle = trn_diag_get (diag, "obstacle");
      g_assert_cmpstr (obstacle != NULL ? obstacle->text : NULL, ==, expected[i].obstacle);
    }
}

static TrnDiags *
warnings_of (const char *text)
{
  g_autoptr (TrnPlan) plan = test_plan (text);
  TrnDiags *diags = trn_diags_new ();
  g_autoptr (TrnProgramme) programme = trn_programme_play (plan, diags);
  test_print_diags (diags);
  g_assert_nonnull (programme);
  return diags;
}

#define LINE_SITE(line, group, keep) LINE_PLAN ("", line, group, keep)
#define LINE_PLAN(rule, line, group, keep)                                                         \
  "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5," rule                              \
  " 'components': [{'id': 'a', 'solid': {'kind': 'box', 'size': [1, 1, 1]},"                       \
  " 'at': {'position': [0, 0, 0]}}],"                                                              \
  " 'structures': [{'id': 'line', 'at': {'position': [0, 9, 9]}" line ", 'solid': " group          \
  "}], 'programme': ["                                                                             \
  "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1]" keep ", 'moves': ["                  \
  "{'do': 'wait', 'seconds': 1}]},"                                                                \
  "{'lift': 'two', 'component': 'a', 'hook_point': [0, 0, 1]" keep ", 'moves': ["                  \
  "{'do': 'wait', 'seconds': 1}]}]}"
#define CONDUCTOR(voltage)                                                                         \
  "{'kind': 'overhead-line'" voltage ", 'conductors': [{'from': [-9, 0, 0], 'to': [9, 0, 0],"      \
  " 'sag': 0.1}]}"
#define LIVE CONDUCTOR (", 'voltage_kv': 20")

/* A line under voltage that has no clearance of its own is named once, though there are two lifts,
 * also where it is a part of a group; not with a clearance of the structure or of each lift for it,
 * not without a voltage, and not where the plan chooses a rule for the distance from live lines.
 * One number for all that a lift passes is general, too. */
static void
test_live_line (void)
{
  const char *warned[] = {
    LINE_SITE ("", LIVE, ""),
    LINE_SITE ("", LIVE, ", 'keep_clear': 1"),
    LINE_SITE ("",
               "{'kind': 'group', 'parts': [{'id': 'p', 'at': {'position': [0, 0, 0]},"
               " 'solid': " LIVE "}]}",
               ""),
  };
  for (guint i = 0; i < G_N_ELEMENTS (warned); i++)
    {
      g_autoptr (TrnDiags) diags = warnings_of (warned[i]);
      g_assert_cmpuint (diags->items->len, ==, 1);
      const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
      g_assert_cmpstr (diag->code, ==, "scene/live-line");
      g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
      g_assert_cmpstr (diag->pointer, ==, "/structures/0");
      g_assert_cmpstr (trn_diag_get (diag, "line")->text, ==, "line");
      g_assert_cmpfloat (trn_diag_get (diag, "voltage")->number, ==, 20);
      g_assert_cmpfloat (trn_diag_get (diag, "required")->number, ==, i == 1 ? 1 : 0.5);
    }
  const char *quiet[] = {
    LINE_SITE (", 'keep_clear': 4", LIVE, ""),
    LINE_SITE ("", LIVE, ", 'keep_clear': {'line': 4}"),
    LINE_SITE ("", CONDUCTOR (""), ""),
    LINE_PLAN (" 'approach': {'rule': 'en-50110-1'},", "", LIVE, ""),
  };
  for (guint i = 0; i < G_N_ELEMENTS (quiet); i++)
    {
      g_autoptr (TrnDiags) diags = warnings_of (quiet[i]);
      g_assert_cmpuint (diags->items->len, ==, 0);
    }
}

/* One box and nothing else on the site. */
static void
test_nothing_stands (void)
{
  g_autoptr (TrnDiags) diags = warnings_of (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'structures': [],"
      " 'components': [{'id': 'a', 'solid': {'kind': 'box', 'size': [1, 1, 1]},"
      " 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'one', 'component': 'a',"
      " 'hook_point': [0, 0, 1], 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}");
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "scene/nothing-stands");
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
  g_assert_cmpstr (diag->pointer, ==, "/programme/0");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/programme/straight", test_straight);
  g_test_add_func ("/programme/tilt", test_tilt);
  g_test_add_func ("/programme/turn", test_turn);
  g_test_add_func ("/programme/slew", test_slew);
  g_test_add_func ("/programme/head-plumb", test_head_plumb);
  g_test_add_func ("/programme/state", test_state);
  g_test_add_func ("/programme/gear", test_gear);
  g_test_add_func ("/programme/no-gear", test_no_gear);
  g_test_add_func ("/programme/sling-later", test_sling_later);
  g_test_add_func ("/programme/start", test_start);
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      g_autofree char *path = g_strconcat ("/programme/fault/", faults[i].name, NULL);
      g_test_add_data_func (path, &faults[i], test_fault);
    }
  g_test_add_func ("/programme/too-far", test_too_far);
  g_test_add_func ("/programme/all-faults", test_all_faults);
  g_test_add_func ("/scene/programme/live-line", test_live_line);
  g_test_add_func ("/scene/programme/nothing-stands", test_nothing_stands);
  return g_test_run ();
}
