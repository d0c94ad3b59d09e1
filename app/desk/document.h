/* document.h: the plan that is open: from a file to a scene that can be shown and checked.
 *
 * Reading, meshes and trees are made on a thread of their own; the main loop never waits. What was
 * open stays until the new one is known to be good or faulty. */
#pragma once

#include <gio/gio.h>

#include "scene.h"
#include "site-view.h"

/* A plan with its scene and display meshes: immutable, shared by everything that shows or checks
 * it, on any thread. */
typedef struct
{
  gatomicrefcount refs;
  TrnPlan *plan;
  TrnScene *scene;
  RenderSite *display;
  TrnCache *cache; /* of the document: what the sites before were found to be */
} DeskSite;

DeskSite *desk_site_ref (DeskSite *site);
void desk_site_unref (DeskSite *site);
/* FALSE where structures are left out; with NULL, too. */
gboolean desk_site_is_whole (const DeskSite *site);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskSite, desk_site_unref)

typedef enum
{
  DESK_DOCUMENT_EMPTY,
  DESK_DOCUMENT_LOADING,
  DESK_DOCUMENT_READY,
  /* See the diagnostics. Where all that is wrong is that some structures cannot be shown, there is
   * a site without them, to be looked at and not to be checked. */
  DESK_DOCUMENT_FAULTY,
} DeskDocumentState;

#define DESK_TYPE_DOCUMENT (desk_document_get_type ())
G_DECLARE_FINAL_TYPE (DeskDocument, desk_document, DESK, DOCUMENT, GObject)

/* Signals:
 *   "changed"          the state, the site or the diagnostics are other ones
 *   "progress"         (double fraction) while loading
 *   "changed-on-disk"  the file was written by another program since it was read */
DeskDocument *desk_document_new (void);

/* Begins to read @file; what is being read already is given up. @most_triangles: see
 * render_site_build. */
void desk_document_open (DeskDocument *document, GFile *file, guint32 most_triangles);
/* Reads the same file again. */
void desk_document_reload (DeskDocument *document);
/* Gives up reading; what was open before stays. */
void desk_document_cancel (DeskDocument *document);
void desk_document_close (DeskDocument *document);
/* Where another plan took the place of a good one and failed: opens that again as it was read, at
 * once. */
void desk_document_go_back (DeskDocument *document);
/* Its title, borrowed; NULL where there is nothing to go back to. */
const char *desk_document_get_back_title (DeskDocument *document);

DeskDocumentState desk_document_get_state (DeskDocument *document);
/* The site, borrowed; NULL unless READY, or FAULTY with something to look at. */
DeskSite *desk_document_get_site (DeskDocument *document);
/* What was found when it was last read, borrowed; never NULL. */
const TrnDiags *desk_document_get_diags (DeskDocument *document);
/* The file last asked for, borrowed; NULL when EMPTY. */
GFile *desk_document_get_file (DeskDocument *document);
/* The plan's title, else the file's name, else "". */
const char *desk_document_get_title (DeskDocument *document);
/* "changed-on-disk" was told since it was last read. */
gboolean desk_document_is_changed_on_disk (DeskDocument *document);
/* The path of a file that was read and is not there any more; NULL: none. Borrowed. */
const char *desk_document_get_gone_file (DeskDocument *document);
