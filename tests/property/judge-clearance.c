/* The clearance over a move, and what tolerances take off it. */
#include <string.h>

#include "judge-case.h"
#include "tolerances.h"
#include "triangle.h"

#define ROUNDING_M 1e-9 /* of coordinates of some hundred metres, many times over */

/* ---- the clearance over the free part ---- */

/* Goes downhill from @s; the least distance found. */
static double
refine (const Case *c, TrnInterval part, double s, double d)
{
  for (double step = trn_interval_width (part) / SAMPLES; step > 1e-7; step /= 2)
    for (int side = -1; side <= 1; side += 2)
      {
        double next = CLAMP (s + side * step, part.lo, part.hi);
        double there = case_surface (c, next, d);
        if (there < d)
          {
            d = there;
            s = next;
          }
      }
  return d;
}

/* A sampled contact is in the list of contacts. */
static void
judge_touch (const Case *c, double s)
{
  HOLDS (c, c->finding->state == TRN_STATE_CONTACT && c->finding->verdict == TRN_VERDICT_FAIL,
         "contact at s = %.12g", s);
  HOLDS (c, case_lists_contact (c, s), "contact at s = %.12g, time %.12g, is not listed", s,
         case_time (c, s));
}

static void
judge_samples (const Case *c, TrnInterval part)
{
  const TrnFinding *f = c->finding;
  gboolean contact = f->state == TRN_STATE_CONTACT;
  double limit = contact ? 1e-9 : f->upper_m + fmax (0.02, 0.05 * f->upper_m);
  double least = limit, at = part.lo;
  /* What is far off needs no great care. */
  guint n = f->lower_m > 2 * f->required_m + 0.5 ? SAMPLES / 5 : SAMPLES;
  gboolean still = strcmp (json_object_get_string_member (case_move (c)->move, "do"), "wait") == 0;
  for (guint k = 0; k <= (still ? 0 : n); k++)
    {
      double s = part.lo + trn_interval_width (part) * k / n, d = case_surface (c, s, limit);
      if (d <= TOUCH_M || (k % 20 == 0 && case_inside (c, s) == TRN_INSIDE_YES))
        judge_touch (c, s);
      if (d < least)
        {
          least = d;
          at = s;
        }
    }
  if (contact)
    return;
  double s = CLAMP (f->progress, part.lo, part.hi);
  least = fmin (refine (c, part, at, least), refine (c, part, s, case_surface (c, s, INFINITY)));
  HOLDS (c, least >= f->lower_m - ROUNDING_M, "sampled %.12g below the bound", least);
}

static double
point_from_mesh (TrnVec3 site, const TrnMesh *mesh, const TrnPose *pose)
{
  TrnVec3 p = trn_pose_apply_inverse (pose, site), on_a, on_b;
  const TrnVec3 point[3] = { p, p, p };
  double least = INFINITY;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 corners[3];
      trn_mesh_corners (mesh, i, corners);
      least = fmin (least, trn_triangle_distance (point, corners, &on_a, &on_b));
    }
  return least;
}

/* The upper bound is attained at its time, between its two points. */
static void
judge_place (const Case *c)
{
  const TrnFinding *f = c->finding;
  TrnPose pose = oracle_pose (c->at->lift, c->move, f->progress);
  HOLDS (c, f->progress >= 0 && f->progress <= 1, "%s", "progress");
  HOLDS (c, fabs (f->time_s - case_time (c, f->progress)) < 1e-9, "%s", "time");
  HOLDS (c, f->has_points, "%s", "no points");
  double apart = trn_vec3_distance (f->point_on_body, f->point_on_obstacle);
  double of_load = point_from_mesh (f->point_on_body, c->at->load->mesh, &pose);
  double of_body = point_from_mesh (f->point_on_obstacle, c->body->mesh, &c->standing->pose);
  HOLDS (c, of_load < 1e-6 && of_body < 1e-6, "points %g and %g off the surfaces", of_load,
         of_body);
  double d = case_surface (c, f->progress, INFINITY);
  if (f->state != TRN_STATE_CONTACT)
    {
      HOLDS (c, fabs (apart - f->upper_m) < ROUNDING_M, "points %.12g apart", apart);
      HOLDS (c, d <= f->upper_m + ROUNDING_M, "distance at that time %.12g", d);
    }
  else if (f->inside != TRN_INSIDE_YES)
    {
      HOLDS (c, apart <= TRN_CONTACT_M + ROUNDING_M, "contact, points %.12g apart", apart);
      HOLDS (c, d <= TRN_CONTACT_M + ROUNDING_M, "contact, distance %.12g", d);
    }
}

/* An end of a span of contact within a move is near to the contact. */
static void
judge_contacts (const Case *c)
{
  const TrnFinding *f = c->finding;
  HOLDS (c, f->contacts != NULL && f->contacts->len > 0, "%s", "no list of contacts");
  HOLDS (c, f->lower_m == 0 && f->upper_m == 0, "%s", "contact without 0");
  double before = -INFINITY;
  TrnInterval part;
  gboolean has_part = case_free_part (c, &part);
  for (guint i = 0; i < f->contacts->len; i++)
    {
      TrnInterval span = g_array_index (f->contacts, TrnInterval, i);
      HOLDS (c, span.lo <= span.hi && span.lo >= before, "contacts out of order at %g", span.lo);
      before = span.hi;
      const double ends[2] = { case_progress (c, span.lo), case_progress (c, span.hi) };
      for (int k = 0; k < 2 && has_part; k++)
        {
          if (ends[k] <= part.lo + 1e-6 || ends[k] >= part.hi - 1e-6)
            continue;
          TrnPose here = oracle_pose (c->at->lift, c->move, ends[k]);
          TrnPose next = oracle_pose (c->at->lift, c->move, ends[k] + 1e-6);
          double speed = 0;
          for (guint corner = 0; corner < 8; corner++)
            {
              TrnVec3 p = trn_box_corner (&c->at->load->mesh->box, corner);
              double way = trn_vec3_distance (trn_pose_apply (&here, p), trn_pose_apply (&next, p));
              speed = fmax (speed, way / (1e-6 * case_move (c)->seconds));
            }
          double d = case_surface (c, ends[k], INFINITY);
          HOLDS (c, d <= fmax (TRN_SPAN_M, speed * TRN_SPAN_S) * 2 + TRN_CONTACT_M,
                 "contact ends at s = %.12g, %.9g away, at %g m/s", ends[k], d, speed);
        }
    }
}

/* The contract's rule. */
static void
judge_verdict (const Case *c)
{
  const TrnFinding *f = c->finding;
  double lower = f->lower_m - f->allowance_m, upper = f->upper_m - f->allowance_m;
  double certify = TRN_CERTIFY_M;
  HOLDS (c, f->lower_m >= 0 && f->lower_m <= f->upper_m, "%s", "bounds");
  HOLDS (c, f->upper_m - f->lower_m <= f->certified_to_m * (1 + 1e-12), "%s", "too wide");
  if (f->lower_m < 2 * f->required_m)
    HOLDS (c, f->certified_to_m <= certify, "%s", "certified to too little");
  HOLDS (c, f->certified_to_m <= fmax (certify, 0.05 * f->lower_m) * (1 + 1e-12), "%s",
         "certified to too little");
  if (f->certified_to_m > certify)
    case_count (c, TALLY_FAR);
  if (lower >= f->required_m)
    HOLDS (c, f->verdict == TRN_VERDICT_PASS && f->state == TRN_STATE_CLEAR, "%s", "meets");
  else
    HOLDS (c, f->verdict == TRN_VERDICT_FAIL && f->state == TRN_STATE_SHORT, "%s", "short");
  if (lower < f->required_m && upper >= f->required_m)
    HOLDS (c, f->upper_m - f->lower_m <= TRN_CONTACT_M * (1 + 1e-9), "%s", "open, yet a verdict");
  case_count (c, f->state == TRN_STATE_CLEAR ? TALLY_CLEAR : TALLY_SHORT);
}

void
judge_clearance (const Case *c)
{
  const TrnFinding *f = c->finding;
  HOLDS (c, f->required_m == c->standing->required_m, "required %.17g", c->standing->required_m);
  TrnInterval part;
  gboolean has_part = case_free_part (c, &part);
  if (has_part)
    judge_samples (c, part);
  if (f->inside == TRN_INSIDE_YES)
    {
      HOLDS (c, f->state == TRN_STATE_CONTACT, "%s", "inside, yet no contact");
      case_count (c, TALLY_INSIDE);
    }
  if (f->inside == TRN_INSIDE_UNKNOWN)
    {
      HOLDS (c, !c->body->check->closed && !c->at->load->check->closed, "%s", "one is closed");
      case_count (c, TALLY_INSIDE_UNKNOWN);
    }
  if (f->state == TRN_STATE_CONTACT)
    {
      HOLDS (c, f->verdict == TRN_VERDICT_FAIL, "%s", "contact passes");
      judge_contacts (c);
      judge_place (c);
      case_count (c, TALLY_CONTACT);
    }
  else if (has_part)
    {
      judge_verdict (c);
      judge_place (c);
    }
  else
    HOLDS (c, f->state == TRN_STATE_SEATED && f->verdict == TRN_VERDICT_PASS, "%s", "all seated");
  if (f->has_seated)
    case_count (c, has_part ? TALLY_SEATED_PART : TALLY_SEATED);
}

/* ---- the allowance ---- */

/* The way that a tilt and a heading error, in either order, take @w, a vector from the hook. */
static double
way_of (TrnVec3 w, double heading, double tilt, double turn)
{
  TrnRotation a = oracle_turn_level (heading, tilt), b = oracle_turn_z (turn);
  TrnRotation ab = trn_rotation_multiply (&a, &b), ba = trn_rotation_multiply (&b, &a);
  return fmax (trn_vec3_distance (trn_rotation_apply (&ab, w), w),
               trn_vec3_distance (trn_rotation_apply (&ba, w), w));
}

/* How far a mesh goes by @slack: seen to, and at most. */
typedef struct
{
  double seen, most;
} Ways;

static Ways
ways_of (const TrnMesh *mesh, const TrnPose *pose, const OracleSlack *slack)
{
  const double tilt = slack->tilt_rad, turn = slack->turn_rad;
  double seen = 0, r = 0;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      TrnVec3 w = trn_rotation_apply (&pose->turn, trn_vec3_sub (mesh->vertices[i], slack->about));
      r = fmax (r, trn_vec3_length (w));
      for (guint heading = 0; heading < 8 && tilt + turn > 0; heading++)
        seen = fmax (seen, way_of (w, 2 * G_PI * heading / 8, tilt, turn));
    }
  const double by_tilt = 2 * r * sin (tilt / 2);
  return (Ways){ slack->m + seen, slack->m + by_tilt + 2 * (r + by_tilt) * sin (turn / 2) };
}

void
judge_allowance (const Case *c)
{
  const JudgeLift *at = c->at;
  Ways load = { 0, 0 };
  for (guint k = 0; k <= 4; k++)
    {
      const TrnPose pose = oracle_pose (at->lift, c->move, 0.25 * k);
      const Ways ways = ways_of (at->load->mesh, &pose, &at->lift->slack);
      load = (Ways){ fmax (load.seen, ways.seen), fmax (load.most, ways.most) };
    }
  const Ways left = ways_of (at->load->mesh, &at->lift->start, &at->lift->left),
             stands = ways_of (c->body->mesh, &c->standing->pose, &c->standing->left);
  /* A mesh file of which a coordinate is off by more than 0.1 mm is refused, a point by √3 of it.
   */
  const double meshes_m = at->load->off_m + c->body->off_m;
  HOLDS (c, at->load->off_m >= 0 && c->body->off_m >= 0 && meshes_m <= 2 * 1.7321e-4,
         "meshes off by %.12g", meshes_m);
  double allowed = c->finding->allowance_m - c->standing->survey_m - meshes_m;
  HOLDS (c, allowed >= load.seen + stands.seen - 1e-12, "tolerances seen to do %.12g and %.12g",
         load.seen, stands.seen);
  HOLDS (c, allowed >= left.seen + stands.seen - 1e-12, "left off by %.12g and %.12g", left.seen,
         stands.seen);
  HOLDS (c, allowed <= load.most + stands.most + 1e-9, "they can do no more than %.12g and %.12g",
         load.most, stands.most);
}
