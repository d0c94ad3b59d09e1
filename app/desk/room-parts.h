/* room-parts.h: small parts that the rooms of the desk share: marks, bars, captions, states. */
#pragma once

#include <gtk/gtk.h>

#include "bar-plot.h"
#include "session.h"

/* Room for a length, in metres or in feet and inches, and for "Not checked". */
#define DESK_NUMBER_PX 84

/* Sets the style of all rooms on the display of @widget; again when dark or light changes. */
void desk_rooms_style (GtkWidget *widget, gboolean dark);

/* The mark of a state; decoration, since the word stands beside it. */
GtkWidget *desk_mark_new (void);
void desk_mark_set (GtkWidget *mark, RenderState state, gboolean dark);

/* A bar of a clearance (bar-plot.h). */
GtkWidget *desk_bar_new (RenderBarKind kind);
void desk_bar_set (GtkWidget *bar, double distance_m, double required_m, RenderState state,
                   gboolean dark);

/* A tooltip that is only looked for when it is wanted: gtk_widget_set_tooltip_text asks the display
 * where the pointer is, every time, and waits for the answer. */
void desk_hint_set (GtkWidget *widget, const char *text);
/* Borrowed; NULL: it has none. */
const char *desk_hint_get (GtkWidget *widget);

/* @child, scrolled up and down only: as high as it is up to @most_px; 0: as high as there is room.
 * At its end the wheel goes on with what it is scrolled in itself.
 */
GtkWidget *desk_scrolled_new (GtkWidget *child, int most_px);

/* A label at the left that gives way: ellipsised, its whole text as a tooltip. */
GtkWidget *desk_text_new (const char *style_class);
void desk_text_set (GtkWidget *label, const char *text);
/* Gives a label the text colour of a state, and of no other. */
void desk_text_set_state (GtkWidget *label, RenderState state);

void desk_text_set_bold (GtkWidget *label, gboolean bold);
/* A name takes a second line, of all in so many characters. */
#define DESK_NAME_CHARS 42
/* A name in a table: @shown on two lines; the hint has all of it, and its id in the plan, NULL
 * where it has none. */
GtkWidget *desk_name_new (void);
void desk_name_set (GtkWidget *label, const char *shown, const char *name, const char *id);
/* The heading of a column of numbers stands above them: at the right. */
void desk_heading_set_number (GtkColumnViewColumn *column);

/* What two bodies are called, by their ids: of the load the other one alone, else "Boom of Crane A
 * to pipe rack". @max as in trn_words_body_name_cut; 0: all of it. Owned by the caller. */
char *desk_between_dup (DeskSession *session, const char *body, const char *obstacle, guint max);

/* How many bytes of a verdict say what it is: what follows in a long one says why and what to do.
 */
gsize desk_verdict_head (const char *verdict);

/* What is certified of a finding after tolerances: the distance that a bar shows. */
double desk_finding_distance_m (const TrnFinding *finding);
/* The state of a finding, not checked where it is NULL. */
RenderState desk_finding_state (DeskSession *session, const TrnFinding *finding);

/* "The check is running …", "stopped …" or that margins are stale; NULL where nothing is to be
 * said. Borrowed. */
const char *desk_check_note (DeskSession *session);

/* Fills a room that costs a lot: @fill (widget) at once while it can be seen, else when it is next
 * seen, however often it is asked for in between. */
void desk_fill_when_seen (GtkWidget *widget, void (*fill) (GtkWidget *widget));

/* Connects @callback (object) to several signals of the session, as long as @object lives. */
void
desk_follow (DeskSession *session, gpointer object, GCallback callback, const char *const *signals);

/* Lets go of the session, and hears no more of it: for dispose. */
void desk_unfollow (DeskSession **session, gpointer object);

/* From one turn that makes a part of many widgets to the next: a frame, which styles them and gives
 * them their places. */
#define DESK_TURN_MS 20

/* Gives @store the @rows in place of what it has: the first ones at once, the others a few in each
 * turn, since a table makes the cells of up to 200 rows at once. @view shows them: a turn waits for
 * its frames; NULL: for none. */
void desk_rows_feed (GListStore *store, GPtrArray *rows, guint n_a_turn, GtkWidget *view);
