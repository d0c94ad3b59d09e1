/* site-view.h: a moment of a lift as a draw list: the scene and its findings in, plain things to be
 * drawn out. Computes no clearance: distances shown come from findings or from a TrnMoment. */
#pragma once

#include "camera.h"
#include "checks.h"
#include "desk-words.h"
#include "draw-list.h"
#include "moment.h"

/* Display meshes of every body of a scene, made once. */
typedef struct
{
  const TrnScene *scene;   /* borrowed */
  RenderMesh **structures; /* by structure, then by body: index = first[structure] + body */
  guint *first;
  guint n_structure_bodies;
  RenderMesh **components; /* one each */
  RenderMesh **gear;       /* what of gear stands still: first_gear[gear] + body; of `structures` */
  guint *first_gear;
  guint n_gear_bodies;
  guint *first_rig; /* by lift: how many moving parts of gear all lifts before it have */
  guint n_items;    /* what is shown, ghosted or hidden on its own: each body of a structure, then
                       each gear with all that is of it */
  guint32 most_triangles; /* to be drawn while one moves; 0: all */
} RenderSite;

/* All bodies together have at most @most_triangles while one moves, and five times as many when the
 * picture stands still: as long as there are more, the largest give up theirs, and a load
 * has fewer besides for when it is drawn more than once. 0: all. May run on
 * any thread. */
RenderSite *render_site_build (const TrnScene *scene, guint32 most_triangles);
void render_site_free (RenderSite *site);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderSite, render_site_free)

/* What is worth looking at in a lift: the load and the gear that holds it all the way, and what
 * stands near the load; of the ground only what lies there. For fitting the camera. */
TrnBox render_site_extent (const RenderSite *site, guint run);
/* The load over one of its moves. */
TrnBox render_site_extent_of_move (const RenderSite *site, guint run, guint move);
/* The surroundings of a point of the load, about as large as the load: for looking at a finding. */
TrnBox render_site_extent_near (const RenderSite *site, guint run, TrnVec3 point);

typedef enum
{
  RENDER_VISIBLE_SOLID,
  RENDER_VISIBLE_GHOST,
  RENDER_VISIBLE_HIDDEN,
} RenderVisibility;

/* What was found of a lift, by the pairs of its moments: it tells the parts of a gear apart by how
 * they stand, for trn_moment_judge_by with render_judge_part and itself, and says how pairs stand.
 * @findings (may be NULL) is borrowed for its life, of @moment only the lift is meant. May be read
 * by any thread; NULL is one that knows of no check. */
typedef struct _RenderJudge RenderJudge;
RenderJudge *render_judge_new (const TrnFindings *findings, const TrnMoment *moment);
void render_judge_free (RenderJudge *judge);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderJudge, render_judge_free)
/* Whether the check had come to the lift. */
gboolean render_judge_is_checked (const RenderJudge *judge);
TrnPartStand render_judge_part (gconstpointer judge, const TrnMoment *moment, guint pair,
                                guint body, double distance_m);

typedef struct
{
  guint run;                   /* index of the lift */
  double time_s;               /* from its start */
  const TrnMoment *moment;     /* distances at that time; NULL: none are shown */
  const RenderJudge *judge;    /* with what was found when that was worked out; NULL: not checked */
  const TrnFindings *findings; /* NULL: not checked */
  const TrnFinding *finding;   /* the one looked at: its points and ghost are shown; or NULL */
  const char *selected;        /* body id, "load" or NULL */
  const RenderVisibility *visibility; /* of items, as counted in RenderSite; NULL: all */
  double tight_m;                     /* a margin up to this is tight */
  gboolean paths, ghosts, swing_circles, nearest; /* what is drawn beside bodies */
  gboolean grid, compass, human, dark;
  gboolean load_shines_through; /* so that it is found in a shaft, and behind a building */
  gboolean tells_verdict; /* a gap begins with its state in words: who looks at a still has no room
                             beside it that says so */
  RenderSection section;
  const char *caption; /* stands before the pitch of the grid and the section; NULL: none at all */
} RenderSiteState;

/* The list for that state; owned by the caller, valid as long as @site. */
RenderDrawList *render_site_view (const RenderSite *site, const RenderSiteState *state);

/* What an item is called in the plan: a body of a structure, or a gear. */
const char *render_site_item_id (const RenderSite *site, guint item);
/* The item that something that stands is, or belongs to; −1: a component. */
int render_site_item_of_standing (const RenderSite *site, const TrnStanding *standing, guint body);
/* The item that a body is, or is a part of, by its id; rigging is of the gear on whose hook it
 * hangs. −1: none. */
int render_site_item_of (const RenderSite *site, guint run, const char *body);

/* The id for picking of each body, and back. The load is 1. */
guint32 render_site_pick_id (const RenderSite *site, guint structure_body);
const char *render_site_body_id (const RenderSite *site, guint32 pick_id);

/* What a finding, or a distance now against what is to be kept, amounts to. */
RenderState render_state_of_finding (const TrnFinding *finding, double tight_m);
/* How a pair stands at the time of a moment. */
typedef struct
{
  RenderState state;   /* NONE while it is seated, or nothing to be judged */
  gboolean is_there;   /* FALSE: gear of which nothing counts now, or what is connected now */
  gboolean is_seated;  /* as the check says; nothing is to be kept */
  gboolean is_on_seat; /* likewise, where the check may not know what is to be taken off */
  /* As it is to be shown; NAN: none. When they are closest in the move it is what is certified of
   * it, so that one moment has one number. */
  double distance_m;
  double allowance_m; /* what tolerances take off now; NAN: not known */
  double spare_m;     /* over what is to be kept, and over the allowance where it is known */
} RenderPairNow;

/* A distance is judged against what is to be kept and the allowance; while that is not known, only
 * a shortfall is certain. What may be seated is not checked before the check has come to it; nor is
 * what has no place now, or what the check could not tell in this move, where it is not short.
 * @judge is the one that told the parts of the moment apart. */
RenderPairNow
render_pair_now (const RenderJudge *judge, const TrnMoment *moment, guint pair, double tight_m);
/* Of gear how the worst of those parts stands that have a place (TrnMoment.placed): what there is
 * to be drawn where the pair itself stands worst by one that has none. */
RenderPairNow
render_pair_placed (const RenderJudge *judge, const TrnMoment *moment, guint pair, double tight_m);
/* Negative: @a is worse. What touches comes before what is short, that before what is not known,
 * that before what is met, and what is seated last; of each the one with less to spare. The order
 * of trn_words_compare_worst, but for contact. */
int render_pair_now_compare (const RenderPairNow *a, const RenderPairNow *b);

/* The word of how two meet. */
TrnNow render_now_of_meeting (TrnMeeting meeting);
RenderState
render_state_of_distance (double distance_m, double required_m, double allowance_m, double tight_m);
