/* Branch and bound in time, in rounds. A piece whose bound is not above what was met, but for the
 * share asked for, is done with; all others of a round are halved. What is open when pieces are as
 * short, or as many, as they get counts with its bound, so that the result is proven however far
 * the search came. */
#include "worst.h"

#define FIRST_PIECES 16
#define MOST_ROUNDS 28
#define MOST_PIECES 20000

typedef struct
{
  TrnEnclosure enclosure;
  gconstpointer data;
  double share;
  TrnWorst worst;
  GArray *pieces, *next; /* of TrnInterval */
  guint n_pieces;
} Search;

/* FALSE where there is no value. */
static gboolean
meet (Search *search, double s)
{
  TrnInterval value;
  TrnWorst *worst = &search->worst;
  if (!search->enclosure (search->data, trn_interval_point (s), &value))
    {
      worst->missing_s = s;
      return FALSE;
    }
  if (value.hi > worst->met)
    {
      worst->met = value.hi;
      worst->met_s = s;
    }
  return TRUE;
}

static gboolean
search_piece (Search *search, TrnInterval piece, gboolean is_last)
{
  TrnInterval value;
  TrnWorst *worst = &search->worst;
  double middle = trn_interval_middle (piece);
  gboolean told = search->enclosure (search->data, piece, &value);
  gboolean last = is_last || piece.lo == piece.hi || ++search->n_pieces > MOST_PIECES;
  if (!told && last)
    {
      worst->missing_s = middle;
      return FALSE;
    }
  if (told && (last || value.hi <= worst->met + search->share * fabs (worst->met)))
    {
      if (value.hi > worst->bound)
        {
          worst->bound = value.hi;
          worst->bound_s = piece;
        }
      return TRUE;
    }
  if (!meet (search, middle))
    return FALSE;
  const TrnInterval halves[2] = { { piece.lo, middle }, { middle, piece.hi } };
  g_array_append_vals (search->next, halves, 2);
  return TRUE;
}

static gboolean
begin (Search *search, TrnInterval span)
{
  guint n = span.hi > span.lo ? FIRST_PIECES : 1;
  double from = span.lo;
  if (!meet (search, from))
    return FALSE;
  for (guint i = 1; i <= n; i++)
    {
      TrnInterval piece = { from, i == n ? span.hi : span.lo + (span.hi - span.lo) * i / n };
      if (!meet (search, piece.hi))
        return FALSE;
      g_array_append_val (search->next, piece);
      from = piece.hi;
    }
  return TRUE;
}

TrnWorst
trn_worst_find (TrnEnclosure enclosure, gconstpointer data, TrnInterval span, double share)
{
  Search search = { .enclosure = enclosure,
                    .data = data,
                    .share = share,
                    .pieces = g_array_new (FALSE, FALSE, sizeof (TrnInterval)),
                    .next = g_array_new (FALSE, FALSE, sizeof (TrnInterval)),
                    .worst = { .bound = -INFINITY,
                               .bound_s = { NAN, NAN },
                               .met = -INFINITY,
                               .met_s = NAN,
                               .missing_s = NAN } };
  gboolean everywhere = begin (&search, span);
  for (guint round = 1; everywhere && search.next->len > 0; round++)
    {
      GArray *done = search.pieces;
      search.pieces = search.next;
      search.next = done;
      g_array_set_size (search.next, 0);
      for (guint i = 0; everywhere && i < search.pieces->len; i++)
        everywhere = search_piece (&search, g_array_index (search.pieces, TrnInterval, i),
                                   round == MOST_ROUNDS);
    }
  TrnWorst *worst = &search.worst;
  worst->complete = everywhere;
  if (worst->met > worst->bound)
    {
      worst->bound = worst->met;
      worst->bound_s = trn_interval_point (worst->met_s);
    }
  if (!everywhere)
    worst->bound = INFINITY;
  g_array_unref (search.pieces);
  g_array_unref (search.next);
  return *worst;
}
