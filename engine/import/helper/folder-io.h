/* folder-io.h: the import library's only way to files: read, and only in the model's own folder.
 *
 * Each path is resolved first (links, `..`), then compared, then opened without following a link.
 * The model itself may be a link, as in folders kept by version control: its folder is that of the
 * file it leads to. */
#pragma once

#include <assimp/cfileio.h>
#include <glib.h>

typedef struct
{
  struct aiFileIO io; /* give its address to the import library */
  char *folder;       /* resolved, with a slash at its end */
  char *outside;      /* the first reference that was refused; NULL when none was */
  char *missing;      /* the first that could not be opened */
  char *model;        /* resolved */
  gboolean alone;     /* nothing but the model was asked for */
} TrnFolderIo;

/* @model must be resolved and absolute. */
TrnFolderIo *trn_folder_io_new (const char *model);
