/* draw-list.h: what is to be seen, as plain data: bodies, lines, labels and marks in site
 * coordinates. Made by site-view.c from a scene and a moment; drawn by renderer.c (bodies and
 * lines, OpenGL) and overlay.c (labels and marks, Cairo). The desk, the presenter, stills and
 * `trunnion render` all draw the same list. */
#pragma once

#include "pose.h"
#include "display-mesh.h"

/* What a body is, which decides its colour. */
typedef enum
{
  RENDER_ROLE_LOAD,
  RENDER_ROLE_STRUCTURE,
  RENDER_ROLE_COMPONENT, /* another component that stands on the site */
  RENDER_ROLE_GROUND,
  RENDER_ROLE_GEAR, /* lifting gear and rigging, moving or standing */
  RENDER_N_ROLES,
} RenderRole;

typedef enum
{
  RENDER_LOOK_SOLID,
  RENDER_LOOK_GHOST, /* a quarter opaque, never picked */
} RenderLook;

/* What has been judged of something: decides colour, pattern, line, mark and word together. */
typedef enum
{
  RENDER_STATE_NONE,
  RENDER_STATE_TOUCHING,
  RENDER_STATE_SHORT,
  RENDER_STATE_TIGHT,
  RENDER_STATE_CLEAR,
  RENDER_STATE_NOT_CHECKED,
} RenderState;

typedef struct
{
  const RenderMesh *mesh; /* borrowed */
  TrnPose site_from_mesh;
  RenderRole role;
  RenderLook look;
  gboolean selected;
  gboolean shines_through; /* shows faintly through what stands before it; added after that */
  guint32 id;              /* for picking, > 0; 0: not pickable */
} RenderBody;

typedef enum
{
  RENDER_LINE_SOLID,
  RENDER_LINE_DASHED,
  RENDER_LINE_DOTTED,       /* swing circles, that of a counterweight too */
  RENDER_LINE_CHAIN_DOTTED, /* the path of a point */
  RENDER_LINE_TWO_DASH,     /* positions in between, and the barricade line */
  RENDER_LINE_DOUBLE,
} RenderLineStyle;

typedef struct
{
  TrnVec3 *points; /* owned by the list */
  guint n_points;
  RenderLineStyle style;
  double width_px;   /* logical pixels */
  RenderState state; /* NONE: the ink colour of the style */
  gboolean on_top;   /* drawn over bodies, casing round it */
} RenderLine;

typedef struct
{
  char *text; /* owned by the list; translated already */
  TrnVec3 at; /* what it speaks of; a thin leader goes there */
  RenderState state;
  gboolean quiet;  /* a small note without a plate, beside its point */
  TrnVec3 *others; /* owned; where a note may stand when its point is not seen; may be NULL */
  guint n_others;
} RenderLabel;

typedef struct
{
  TrnVec3 at;
  RenderState state;
} RenderMark;

/* Everything on the positive side of the plane is cut away; caps are hatched. */
typedef struct
{
  gboolean on;
  TrnVec3 normal;  /* unit */
  double offset_m; /* plane: normal · p = offset */
} RenderSection;

typedef struct
{
  GArray *bodies;    /* of RenderBody */
  GArray *lines;     /* of RenderLine */
  GArray *labels;    /* of RenderLabel */
  GArray *marks;     /* of RenderMark */
  GPtrArray *meshes; /* of RenderMesh: those that are of this list only, held */
  RenderSection section;
  gboolean dark;
  gboolean grid; /* on the level of grade, with its pitch */
  double grid_pitch_m;
  gboolean compass; /* axes and north in a corner */
  gboolean human;   /* a figure 1.75 m tall, for scale */
  TrnVec3 human_at;
  char *caption; /* owned; a line at the foot of the view: pitch, section, projection */
  TrnBox extent; /* of the bodies, for fitting and the depth range */
} RenderDrawList;

RenderDrawList *render_draw_list_new (void);
void render_draw_list_free (RenderDrawList *list);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderDrawList, render_draw_list_free)

/* Each copies what it is given. */
void render_draw_list_add_body (RenderDrawList *list, const RenderBody *body);
void render_draw_list_add_line (RenderDrawList *list, const TrnVec3 *points, guint n_points,
                                RenderLineStyle style, double width_px, RenderState state,
                                gboolean on_top);
void render_draw_list_add_label (RenderDrawList *list, const char *text, TrnVec3 at,
                                 RenderState state, gboolean quiet);
/* A note that may stand at any of the points, the first that is seen. */
void render_draw_list_add_note_along (RenderDrawList *list, const char *text, const TrnVec3 *points,
                                      guint n_points);
void render_draw_list_add_mark (RenderDrawList *list, TrnVec3 at, RenderState state);
/* The display mesh of @mesh, for bodies of this list only; borrowed, it goes with the list. */
const RenderMesh *render_draw_list_make_mesh (RenderDrawList *list, const TrnMesh *mesh);

/* ---- colours: one table for everything that is drawn ---- */

typedef struct
{
  double r, g, b, a; /* 0 … 1, sRGB */
} RenderColour;

/* After Okabe and Ito; apart from each other under every kind of colour blindness. */
RenderColour render_state_colour (RenderState state, gboolean dark);
/* A darker (on dark: lighter) shade that text of that state reaches 4.5 : 1 with. */
RenderColour render_state_text_colour (RenderState state, gboolean dark);
/* What goes round marks and lines of a state so that they stand out from any body. */
RenderColour render_state_casing_colour (RenderState state, gboolean dark);
/* Lines and text that speak of no state, and what is behind everything. */
RenderColour render_ink_colour (gboolean dark);
RenderColour render_paper_colour (gboolean dark);
/* The plate of a label, opposite to the style, and its text where that has no state. */
RenderColour render_plate_colour (gboolean dark);
RenderColour render_plate_text_colour (RenderState state, gboolean dark);
