/* text-of.h: what a widget says. */
#pragma once

#include <gtk/gtk.h>

/* The text of a label, or of a number (app/desk/number.h); NULL: it is neither. */
static inline const char *
test_text_of (GtkWidget *widget)
{
  if (GTK_IS_INSCRIPTION (widget))
    return gtk_inscription_get_text (GTK_INSCRIPTION (widget));
  return GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : NULL;
}
