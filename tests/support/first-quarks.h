/* first-quarks.h: for a test program in which GTK shows one of its large dialogs. Included once in
 * a program.
 *
 * GLib keeps the names of its quarks in a table of 2048 that it makes as it is loaded. When that is
 * full it takes a larger one and lets the old one go without freeing it, since other threads may
 * still read it (a comment in glib/gquark.c says so): the properties of all the classes in the file
 * dialog are more than 2048 names with those before. That is one leak of 16 KiB, once in a program.
 * It cannot be told by its name, since GLib has no frame pointers: the stack ends in g_malloc, as
 * that of any leak does. It is told by its time: what libraries allocate while they are loaded,
 * before anything of ours runs, is not looked at. */
#pragma once

#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>

static void
before_libraries (int argc, char **argv, char **env)
{
  __lsan_disable ();
}

__attribute__ ((section (".preinit_array"),
                used)) static void (*const before_libraries_entry) (int argc, char **argv,
                                                                    char **env)
    = before_libraries;

/* The constructors of a program run after those of its libraries. */
__attribute__ ((constructor)) static void
after_libraries (void)
{
  __lsan_enable ();
}
#endif
