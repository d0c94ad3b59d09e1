/* Branch and bound in time. A piece whose bound is not above what was met, but for the share asked
 * for, is done with; others are halved. A piece that is as short as pieces get counts with its
 * bound, so that the result is proven however far the search came. */
#include "worst.h"

#define FIRST_PIECES 16
#define MOST_HALVINGS 24
#define MOST_PIECES 20000

typedef struct
{
  TrnInterval s;
  guint level;
} Piece;

typedef struct
{
  TrnEnclosure enclosure;
  gconstpointer data;
  double share;
  TrnWorst worst;
  guint n_pieces;
  Piece stack[FIRST_PIECES + MOST_HALVINGS + 1];
  guint n_stack;
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
  if (value.lo > worst->met)
    {
      worst->met = value.lo;
      worst->met_s = s;
    }
  return TRUE;
}

static gboolean
piece_search (Search *search, const Piece *piece)
{
  TrnInterval value;
  TrnWorst *worst = &search->worst;
  double middle = trn_interval_middle (piece->s);
  gboolean told = search->enclosure (search->data, piece->s, &value);
  gboolean last = piece->level >= MOST_HALVINGS || ++search->n_pieces > MOST_PIECES;
  if (!told && last)
    {
      worst->missing_s = middle;
      return FALSE;
    }
  if (last || (told && value.hi <= worst->met + search->share * fabs (worst->met)))
    {
      worst->bound = fmax (worst->bound, value.hi);
      return TRUE;
    }
  if (!meet (search, middle))
    return FALSE;
  search->stack[search->n_stack++] = (Piece){ { middle, piece->s.hi }, piece->level + 1 };
  search->stack[search->n_stack++] = (Piece){ { piece->s.lo, middle }, piece->level + 1 };
  return TRUE;
}

TrnWorst
trn_worst_find (TrnEnclosure enclosure, gconstpointer data, TrnInterval span, double share)
{
  Search search
      = { .enclosure = enclosure,
          .data = data,
          .share = share,
          .worst = { .bound = -INFINITY, .met = -INFINITY, .met_s = NAN, .missing_s = NAN } };
  TrnWorst *worst = &search.worst;
  guint n = span.hi > span.lo ? FIRST_PIECES : 1;
  double ends[FIRST_PIECES + 1];
  gboolean everywhere = TRUE;
  for (guint i = 0; i <= n && everywhere; i++)
    {
      ends[i] = i == n ? span.hi : span.lo + (span.hi - span.lo) * i / n;
      everywhere = meet (&search, ends[i]);
    }
  for (guint i = n; everywhere && i > 0; i--)
    search.stack[search.n_stack++] = (Piece){ { ends[i - 1], ends[i] }, 0 };
  while (everywhere && search.n_stack > 0)
    {
      Piece piece = search.stack[--search.n_stack];
      everywhere = piece_search (&search, &piece);
    }
  worst->complete = everywhere;
  worst->bound = everywhere ? fmax (worst->bound, worst->met) : INFINITY;
  return *worst;
}
