/* keep-loaded.h: for a test program that draws: a driver that is unloaded takes the names of its
 * own leaks with it, so that they could not be told from ours. Included once in a program. */
#pragma once

#ifdef __SANITIZE_ADDRESS__
int dlclose (void *handle);

int
dlclose (void *handle)
{
  return 0;
}
#endif
