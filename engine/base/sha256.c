/* Files and meshes are known by their digest, and GLib's takes as long as the reading of them. Most
 * processors of the x86-64 kind have instructions for it, which take about a quarter; that is found
 * out when the program runs. On others GLib does it. The digest is the same.
 *
 * The instructions (Intel 2013, "Intel SHA Extensions") hold the eight words of the state as a, b,
 * e, f and c, d, g, h, do two rounds each, and make four words of the message out of the sixteen
 * before them. */
#include "sha256.h"

#include <string.h>

#define BLOCK 64u

#if defined __x86_64__
#include <cpuid.h>
#include <immintrin.h>

#define TRN_SHA __attribute__ ((target ("sha,ssse3,sse4.1")))

static const guint32 round_constants[64] = {
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
  0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
  0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
  0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
  0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
  0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
  0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2
};

/* Four words each: a, b, e, f and c, d, g, h, the highest first. */
typedef struct
{
  __m128i abef, cdgh;
} State;

TRN_SHA static State
state_load (const guint32 words[8])
{
  const __m128i abcd = _mm_shuffle_epi32 (_mm_loadu_si128 ((const __m128i *)words), 0xb1);
  const __m128i efgh = _mm_shuffle_epi32 (_mm_loadu_si128 ((const __m128i *)(words + 4)), 0x1b);
  return (State){ _mm_alignr_epi8 (abcd, efgh, 8), _mm_blend_epi16 (efgh, abcd, 0xf0) };
}

TRN_SHA static void
state_store (const State *state, guint32 words[8])
{
  const __m128i abef = _mm_shuffle_epi32 (state->abef, 0x1b),
                cdgh = _mm_shuffle_epi32 (state->cdgh, 0xb1);
  _mm_storeu_si128 ((__m128i *)words, _mm_blend_epi16 (abef, cdgh, 0xf0));
  _mm_storeu_si128 ((__m128i *)(words + 4), _mm_alignr_epi8 (cdgh, abef, 8));
}

TRN_SHA static void
add_block (State *state, const guint8 *block)
{
  const __m128i big_endian = _mm_set_epi64x (0x0c0d0e0f08090a0b, 0x0405060700010203);
  const State before = *state;
  __m128i w[4];
  for (guint i = 0; i < 4; i++)
    w[i] = _mm_shuffle_epi8 (_mm_loadu_si128 ((const __m128i *)(block + 16 * i)), big_endian);
  for (guint i = 0; i < 16; i++)
    {
      __m128i *here = &w[i % 4];
      const __m128i next = w[(i + 1) % 4], second = w[(i + 2) % 4], last = w[(i + 3) % 4];
      if (i >= 4)
        *here = _mm_sha256msg2_epu32 (
            _mm_add_epi32 (_mm_sha256msg1_epu32 (*here, next), _mm_alignr_epi8 (last, second, 4)),
            last);
      const __m128i k = _mm_loadu_si128 ((const __m128i *)(round_constants + 4 * i));
      const __m128i sum = _mm_add_epi32 (*here, k);
      state->cdgh = _mm_sha256rnds2_epu32 (state->cdgh, state->abef, sum);
      state->abef = _mm_sha256rnds2_epu32 (state->abef, state->cdgh, _mm_shuffle_epi32 (sum, 0x0e));
    }
  state->abef = _mm_add_epi32 (state->abef, before.abef);
  state->cdgh = _mm_add_epi32 (state->cdgh, before.cdgh);
}

TRN_SHA static void
add_blocks (guint32 words[8], const guint8 *blocks, gsize n)
{
  State state = state_load (words);
  for (gsize i = 0; i < n; i++)
    add_block (&state, blocks + BLOCK * i);
  state_store (&state, words);
}

static gboolean
has_instructions (void)
{
  static gsize found = 0; /* 1: no, 2: yes */
  if (g_once_init_enter (&found))
    {
      guint a, b = 0, c = 0, d;
      gboolean has = __get_cpuid (1, &a, &b, &c, &d) && (c & bit_SSSE3) && (c & bit_SSE4_1);
      has = has && __get_cpuid_count (7, 0, &a, &b, &c, &d) && (b & bit_SHA);
      g_once_init_leave (&found, has ? 2 : 1);
    }
  return found == 2;
}

#else

static gboolean
has_instructions (void)
{
  return FALSE;
}

static void
add_blocks (guint32 words[8], const guint8 *blocks, gsize n)
{
  g_assert_not_reached ();
}
#endif

void
trn_sha256_start (TrnSha256 *sum)
{
  static const guint32 first[8] = { 0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                    0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19 };
  memcpy (sum->state, first, sizeof first);
  sum->n_bytes = 0;
  sum->checksum = has_instructions () ? NULL : g_checksum_new (G_CHECKSUM_SHA256);
}

void
trn_sha256_add (TrnSha256 *sum, gconstpointer bytes, gsize n)
{
  const guint8 *at = bytes;
  if (sum->checksum != NULL)
    {
      g_checksum_update (sum->checksum, bytes, (gssize)n);
      return;
    }
  const gsize begun = sum->n_bytes % BLOCK;
  sum->n_bytes += n;
  if (begun > 0)
    {
      const gsize more = MIN (n, BLOCK - begun);
      memcpy (sum->begun + begun, at, more);
      if (begun + more < BLOCK)
        return;
      add_blocks (sum->state, sum->begun, 1);
      at += more;
      n -= more;
    }
  add_blocks (sum->state, at, n / BLOCK);
  if (n % BLOCK > 0)
    memcpy (sum->begun, at + n / BLOCK * BLOCK, n % BLOCK);
}

/* A bit that is set, zeros, and the number of bits in the last eight bytes of a block. */
static void
add_end (TrnSha256 *sum)
{
  const guint64 n_bits = GUINT64_TO_BE (8 * sum->n_bytes);
  const gsize begun = sum->n_bytes % BLOCK, room = sizeof n_bits;
  guint8 end[2 * BLOCK] = { 0x80 };
  const gsize n = (begun + 1 + room <= BLOCK ? BLOCK : 2 * BLOCK) - begun;
  memcpy (end + n - room, &n_bits, room);
  trn_sha256_add (sum, end, n);
}

void
trn_sha256_end (TrnSha256 *sum, char text[65])
{
  if (sum->checksum != NULL)
    {
      if (text != NULL)
        g_strlcpy (text, g_checksum_get_string (sum->checksum), 65);
      g_checksum_free (sum->checksum);
      sum->checksum = NULL;
      return;
    }
  add_end (sum);
  for (guint i = 0; i < 8 && text != NULL; i++)
    g_snprintf (text + 8 * i, 9, "%08x", sum->state[i]);
}
