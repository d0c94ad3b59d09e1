/* Branch and bound in time.
 *
 * Over a piece [s0, s1] of width h with f0, f1 at its ends and f″ in [a, b] there, f lies nowhere
 * below its chord less max (b, 0) (s − s0)(s1 − s)/2, so nowhere below
 *   min (f0, f1) − max (b, 0) h²/8,
 * and where f′ keeps its sign not below min (f0, f1); nor below what the enclosure over the piece
 * says; the greatest in the same manner. Pieces that may still hold something lower than the lowest
 * value met so far less the width asked for, or something as much higher, are halved. All of that
 * is worked out with outward rounding. */
#include "extreme.h"

/* Values are first taken at this many even steps, so that the search knows early what is low and
 * what is high. */
#define FIRST_PIECES 16

/* Pieces looked at in all: no quantity of a lift needs as many, unless it is known less well than
 * it is asked for. */
#define MOST_PIECES 20000

/* Halvings of the first pieces. A piece that has still no value over its whole length at 2⁻³² of
 * the move, a microsecond in an hour, has none. */
#define MOST_HALVINGS 28

typedef struct
{
  double s0, s1;
  TrnInterval f0, f1;
  guint level;
} Piece;

typedef struct
{
  TrnQuantity quantity;
  gconstpointer data;
  double width;
  TrnExtremes found; /* the attained ends, so far */
  TrnInterval outer; /* what finished pieces prove */
  gboolean cut_short;
  guint n_pieces;
  Piece stack[FIRST_PIECES + MOST_HALVINGS + 1];
  guint n_stack;
} Search;

/* FALSE where there is no value. */
static gboolean
value_at (Search *search, double s, TrnInterval *f)
{
  TrnJet jet;
  TrnExtremes *found = &search->found;
  if (!search->quantity (search->data, trn_interval_point (s), &jet) || !trn_jet_is_value (&jet))
    {
      found->missing_s = s;
      return FALSE;
    }
  *f = jet.v;
  if (f->hi < found->least.hi)
    {
      found->least.hi = f->hi;
      found->least_s = s;
    }
  if (f->lo > found->greatest.lo)
    {
      found->greatest.lo = f->lo;
      found->greatest_s = s;
    }
  return TRUE;
}

/* Within what the quantity stays over the piece; FALSE where it cannot be told. */
static gboolean
piece_range (const Search *search, const Piece *piece, TrnInterval *range)
{
  TrnJet jet;
  TrnInterval s = { piece->s0, piece->s1 };
  if (!search->quantity (search->data, s, &jet) || !trn_jet_is_value (&jet))
    return FALSE;
  *range = jet.v;
  TrnInterval ends = trn_interval_hull (piece->f0, piece->f1);
  TrnInterval h = trn_interval_sub (trn_interval_point (s.hi), trn_interval_point (s.lo));
  TrnInterval sag = trn_interval_mul (jet.dd, trn_interval_scale (trn_interval_square (h), 0.125));
  TrnInterval chord = { ends.lo, ends.hi };
  gboolean monotonic = jet.d.lo >= 0 || jet.d.hi <= 0;
  if (!monotonic)
    {
      if (!trn_interval_is_value (sag))
        return TRUE;
      chord = trn_interval_add (
          ends, (TrnInterval){ sag.hi > 0 ? -sag.hi : 0, sag.lo < 0 ? -sag.lo : 0 });
    }
  *range = trn_interval_clip (*range, chord.lo, chord.hi);
  return TRUE;
}

static void
finish (Search *search, TrnInterval range)
{
  search->outer.lo = fmin (search->outer.lo, range.lo);
  search->outer.hi = fmax (search->outer.hi, range.hi);
}

/* Finishes or halves the piece; FALSE where the quantity has no value. */
static gboolean
piece_search (Search *search, const Piece *piece)
{
  TrnInterval range;
  gboolean told = piece_range (search, piece, &range);
  double middle = piece->s0 + 0.5 * (piece->s1 - piece->s0);
  gboolean last = piece->level >= MOST_HALVINGS || ++search->n_pieces > MOST_PIECES
                  || !(piece->s0 < middle && middle < piece->s1);
  if (!told && last)
    {
      search->found.missing_s = middle;
      return FALSE;
    }
  gboolean open = !told || range.lo < search->found.least.hi - search->width
                  || range.hi > search->found.greatest.lo + search->width;
  if (!open || last)
    {
      search->cut_short |= open;
      finish (search, range);
      return TRUE;
    }
  TrnInterval f;
  if (!value_at (search, middle, &f))
    return FALSE;
  guint level = piece->level + 1;
  search->stack[search->n_stack++] = (Piece){ middle, piece->s1, f, piece->f1, level };
  search->stack[search->n_stack++] = (Piece){ piece->s0, middle, piece->f0, f, level };
  return TRUE;
}

/* The first pieces, the earliest on top. */
static gboolean
begin (Search *search, TrnInterval span)
{
  TrnInterval f[FIRST_PIECES + 1];
  double s[FIRST_PIECES + 1];
  guint n = span.hi > span.lo ? FIRST_PIECES : 0;
  for (guint i = 0; i <= n; i++)
    {
      s[i] = i == 0 ? span.lo : i == n ? span.hi : span.lo + (span.hi - span.lo) * i / n;
      if (!value_at (search, s[i], &f[i]))
        return FALSE;
    }
  if (n == 0)
    finish (search, f[0]);
  for (guint i = n; i > 0; i--)
    search->stack[search->n_stack++] = (Piece){ s[i - 1], s[i], f[i - 1], f[i], 0 };
  return TRUE;
}

TrnExtremes
trn_extremes_find_beyond (TrnQuantity quantity, gconstpointer data, TrnInterval span, double width,
                          const TrnExtremes *known)
{
  g_assert (known->complete);
  Search search = {
    .quantity = quantity,
    .data = data,
    .width = width,
    .found = *known,
    .outer = { known->least.lo, known->greatest.hi },
  };
  search.found.least.lo = -INFINITY;
  search.found.greatest.hi = INFINITY;
  gboolean everywhere = begin (&search, span);
  while (everywhere && search.n_stack > 0)
    {
      Piece piece = search.stack[--search.n_stack];
      everywhere = piece_search (&search, &piece);
    }
  if (everywhere)
    {
      search.found.least.lo = fmin (search.outer.lo, search.found.least.hi);
      search.found.greatest.hi = fmax (search.outer.hi, search.found.greatest.lo);
    }
  search.found.complete = everywhere && !search.cut_short;
  return search.found;
}

TrnExtremes
trn_extremes_find (TrnQuantity quantity, gconstpointer data, TrnInterval span, double width)
{
  const TrnExtremes nothing = { .least = { INFINITY, INFINITY },
                                .greatest = { -INFINITY, -INFINITY },
                                .least_s = NAN,
                                .greatest_s = NAN,
                                .complete = TRUE,
                                .missing_s = NAN };
  return trn_extremes_find_beyond (quantity, data, span, width, &nothing);
}
