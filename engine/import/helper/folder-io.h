/* folder-io.h: the import library's only way to files: read, and only in the model's own folder.
 *
 * What leads out by its very words (`..`, an absolute path, an address such as file://) is refused
 * before the disk is asked, so that an answer never tells what lies outside. Then links are
 * resolved and the outcome compared. Then it is opened from the model's folder downwards, one
 * folder at a time and following no link: whoever puts a link there in between gets an error, no
 * more. A hard link cannot be told from a file of the folder, nor is it meant to be.
 *
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
  GPtrArray *opened;  /* other files that were read: digest, a blank, path from the folder without
                         links; char* */
  int folder_fd;
  gboolean uris;            /* references are percent-encoded */
  gboolean blanks_in_names; /* of the model, which the library would end there */
  gboolean marks;           /* the library knows no byte order mark in it */
  gboolean alone;           /* nothing but the model was asked for */
  gboolean no_room;         /* something was not read for want of memory */
} TrnFolderIo;

/* @model must be resolved and absolute. Must be called before anything else opens files: a helper
 * that cannot open the folder opens nothing. */
TrnFolderIo *trn_folder_io_new (const char *model);
