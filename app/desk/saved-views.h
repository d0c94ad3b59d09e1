/* saved-views.h: views that are kept in the plan, under its top key "x-views":
 *
 *   "x-views": [{"name": "Down the shaft", "target": [3, 4, -2], "distance": 30,
 *                "heading": 90, "pitch": -60, "parallel": false}]
 *
 * Lengths in metres, angles in degrees, as in camera.h. Whoever does not know the key leaves it
 * alone; no check reads it. */
#pragma once

#include "camera.h"
#include "document.h"

typedef struct
{
  char *name; /* owned */
  TrnVec3 target;
  double distance_m, heading_rad, pitch_rad;
  gboolean parallel;
  guint entry; /* its place in the list of the plan */
} DeskSavedView;

/* The views of a plan in their order; owned by the caller. An entry that is not well formed is
 * passed over. */
GPtrArray *desk_saved_views_read (const TrnPlan *plan);

DeskSavedView *desk_saved_view_new (const char *name, const RenderCamera *camera);
DeskSavedView *desk_saved_view_copy (const DeskSavedView *view);
void desk_saved_view_free (DeskSavedView *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskSavedView, desk_saved_view_free)

/* @camera as that view has it: all but its field of view. */
void desk_saved_view_apply (const DeskSavedView *view, RenderCamera *camera);

typedef enum
{
  DESK_VIEW_ADD,
  DESK_VIEW_RENAME,
  DESK_VIEW_REMOVE,
} DeskViewChange;

/* The text of the plan with that change of its views; owned by the caller. All else in it stays,
 * entries that are not well formed among it. @view: to be added; or its entry, with its new name.
 * NULL where the key holds no list, which is not overwritten ("desk/views-no-list" in @diags), or
 * where a plan of that length could not be read again ("desk/plan-too-long"). */
char *desk_saved_views_text (const TrnPlan *plan, DeskViewChange change, const DeskSavedView *view,
                             gsize *length, TrnDiags *diags);

typedef enum
{
  DESK_VIEWS_WRITTEN,
  DESK_VIEWS_CHANGED_ON_DISK, /* since the plan was read; it was left alone */
  DESK_VIEWS_FAILED,          /* see the diagnostics; what was there is still there */
} DeskViewsOutcome;

/* Writes that text to the plan's file, whole or not at all. Blocks. */
DeskViewsOutcome desk_saved_views_write (const TrnPlan *plan, DeskViewChange change,
                                         const DeskSavedView *view, TrnDiags *diags);

/* The same on a thread of its own; then the document reads the plan again if it still shows @site.
 * @done is called on the main loop; what it is given is borrowed. */
typedef void (*DeskViewsDone) (DeskViewsOutcome outcome, const TrnDiags *diags, gpointer data);
void desk_saved_views_change (DeskDocument *document, DeskSite *site, DeskViewChange change,
                              const DeskSavedView *view, DeskViewsDone done, gpointer data,
                              GDestroyNotify data_free);
