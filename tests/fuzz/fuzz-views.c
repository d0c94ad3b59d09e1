/* Any bytes as the list of views that a plan keeps for the desk. What is read of it gives a camera
 * with finite numbers; adding a view keeps all those before it, taking it away again gives the plan
 * that was. */
#include "fuzz.h"

#include <math.h>
#include <string.h>

#include "saved-views.h"

static const char head[]
    = "{\"format\": \"trunnion-plan\", \"version\": 1, \"title\": \"any\", \"keep_clear\": 0.3, "
      "\"structures\": [],"
      " \"components\": [{\"id\": \"a\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]},"
      " \"at\": {\"position\": [0, 0, 0]}}], \"programme\": [{\"lift\": \"b\", \"component\": "
      "\"a\","
      " \"hook_point\": [0, 0, 1], \"moves\": [{\"do\": \"hoist\", \"by\": 1, \"seconds\": 1}]}],"
      " \"x-views\": ";

static TrnPlan *
parse (const char *bytes, gsize length)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  return trn_plan_parse (bytes, length, "any.trunnion", NULL, NULL, diags);
}

/* NULL where @views is no JSON. */
static TrnPlan *
plan_with (const char *views, gsize length)
{
  g_autoptr (GString) text = g_string_new (head);
  g_string_append_len (text, views, (gssize)length);
  g_string_append_c (text, '}');
  return parse (text->str, text->len);
}

static void
check_camera (const DeskSavedView *view)
{
  RenderCamera camera = { .fov_rad = 1 };
  desk_saved_view_apply (view, &camera);
  g_assert_true (trn_vec3_is_finite (camera.target));
  g_assert_true (isfinite (camera.distance_m) && camera.distance_m > 0);
  g_assert_true (isfinite (camera.heading_rad) && isfinite (camera.pitch_rad));
}

/* The plan with that change; NULL where what is under the key is no list, and stays. */
static TrnPlan *
change (const TrnPlan *plan, DeskViewChange what, const DeskSavedView *view)
{
  gsize length;
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autofree char *text = desk_saved_views_text (plan, what, view, &length, diags);
  g_assert_cmpint (text == NULL, ==, trn_diags_have_errors (diags));
  TrnPlan *changed = text != NULL ? parse (text, length) : NULL;
  g_assert_true (text == NULL || changed != NULL);
  return changed;
}

static void
check_changes (const TrnPlan *plan, const GPtrArray *views)
{
  const RenderCamera camera = { .target = { 1, 2, 3 }, .distance_m = 4, .fov_rad = 1 };
  g_autoptr (DeskSavedView) view = desk_saved_view_new ("one more", &camera);
  g_autoptr (TrnPlan) more = change (plan, DESK_VIEW_ADD, view);
  if (more == NULL)
    return;
  g_autoptr (GPtrArray) after = desk_saved_views_read (more);
  g_assert_cmpuint (after->len, ==, views->len + 1);
  for (guint i = 0; i < views->len; i++)
    g_assert_cmpstr (((DeskSavedView *)views->pdata[i])->name, ==,
                     ((DeskSavedView *)after->pdata[i])->name);
  g_autoptr (TrnPlan) back = change (more, DESK_VIEW_REMOVE, after->pdata[views->len]);
  g_autoptr (GPtrArray) again = desk_saved_views_read (back);
  g_assert_cmpuint (again->len, ==, views->len);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  g_autoptr (TrnPlan) plan = plan_with ((const char *)bytes, length);
  if (plan == NULL)
    {
      /* Not because of what stands before the views. */
      g_autoptr (TrnPlan) without = plan_with ("[]", 2);
      g_assert_nonnull (without);
      return 0;
    }
  g_autoptr (GPtrArray) views = desk_saved_views_read (plan);
  for (guint i = 0; i < views->len; i++)
    check_camera (views->pdata[i]);
  check_changes (plan, views);
  return 0;
}
