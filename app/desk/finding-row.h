/* finding-row.h: a finding as a row of the table: its texts and what it is sorted by, made once, so
 * that sorting a thousand rows formats nothing. */
#pragma once

#include <gio/gio.h>

#include "command-words.h"
#include "session.h"

#define DESK_TYPE_FINDING_ROW (desk_finding_row_get_type ())
G_DECLARE_FINAL_TYPE (DeskFindingRow, desk_finding_row, DESK, FINDING_ROW, GObject)

struct _DeskFindingRow
{
  GObject parent;
  guint run, index; /* of the finding in its lift's findings */
  guint order;      /* in the results */
  RenderState state;
  TrnVerdict verdict;
  gboolean is_clearance;
  gboolean is_of_gear;          /* of a part of gear, or of a check of gear */
  char *id;                     /* of the obstacle; owned, NULL where there is none */
  char *shown;                  /* the name of the obstacle, cut; owned */
  char *cells[TRN_N_COLUMNS];   /* owned */
  double values[TRN_N_COLUMNS]; /* of the columns that are numbers; NAN: none */
};

DeskFindingRow *desk_finding_row_new (DeskSession *session, guint run, guint index, guint order);
/* The finding it was made of, borrowed; NULL where the check has gone on since. */
const TrnFinding *desk_finding_row_get (DeskFindingRow *row, DeskSession *session);
