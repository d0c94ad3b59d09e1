/* test-language.c: what is longer in another language has its room: German, whose words are. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "desk-words.h"
#include "keep-loaded.h"
#include "sequence.h"
#include "words.h"

static GtkWidget *
find_saying (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && strcmp (gtk_label_get_text (GTK_LABEL (root)), text) == 0)
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_saying (child, text);
  return found;
}

/* Nothing is cut, and no word is broken. */
static void
assert_whole (GtkWidget *label)
{
  PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (label));
  const char *text = pango_layout_get_text (layout);
  g_assert_false (pango_layout_is_ellipsized (layout));
  for (int i = 1; i < pango_layout_get_line_count (layout); i++)
    {
      const int begin
          = pango_layout_line_get_start_index (pango_layout_get_line_readonly (layout, i));
      if (text[begin - 1] != ' ')
        g_error ("“%s” is broken", text);
    }
}

/* Whatever a move is said to be instead of its margin, in bold as what fails is, is read in whole.
 */
static void
test_margins (void)
{
  g_autoptr (DeskSession) session = desk_session_new ();
  GtkWidget *window = gtk_window_new (), *sequence = desk_sequence_new (session);
  /* As narrow as it can be. */
  gtk_window_set_default_size (GTK_WINDOW (window), 1, 700);
  gtk_window_set_child (GTK_WINDOW (window), sequence);
  gtk_window_present (GTK_WINDOW (window));
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_DONE
             && desk_session_get_site (session) != NULL);
  TrnFinding *worst = (TrnFinding *)desk_session_worst (session, 0, 0, NULL);
  g_assert_nonnull (worst);
  worst->verdict = TRN_VERDICT_FAIL;
  worst->lower_m = NAN;
  guint n_longest = 0;
  for (guint state = TRN_STATE_CLEAR; state <= TRN_STATE_TURNS_OVER; state++)
    {
      worst->state = (TrnState)state;
      /* Of what is on its seat nothing is said while there is anything else. */
      if (desk_session_worst (session, 0, 0, NULL) != worst)
        continue;
      desk_session_tell_view_changed (session);
      const gboolean touches = render_state_of_finding (worst, 0.1) == RENDER_STATE_TOUCHING;
      const char *word
          = touches ? trn_words_contact (worst->inside) : trn_words_finding_short (worst);
      test_wait (find_saying (sequence, word) != NULL);
      test_idle (0.1);
      assert_whole (find_saying (sequence, word));
      n_longest += strcmp (word, "AUSSER REICHWEITE") == 0;
    }
  g_assert_cmpuint (n_longest, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
  test_idle (0.05);
}

int
main (int argc, char **argv)
{
  g_setenv ("LANGUAGE", "de", TRUE);
  trn_words_init (g_getenv ("TRUNNION_LOCALE_FOLDER"));
  gtk_disable_setlocale ();
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/language/margins", test_margins);
  return g_test_run ();
}
