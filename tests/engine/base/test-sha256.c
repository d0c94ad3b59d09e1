/* The digest of bytes by the processor's own instructions, where it has them, is the one that is
 * defined, however the bytes are cut into pieces. */
#include "sha256.h"

#include <string.h>

static void
assert_digest (const char *bytes, gsize n, const char *expected)
{
  char text[65];
  TrnSha256 sum;
  trn_sha256_start (&sum);
  trn_sha256_add (&sum, bytes, n);
  trn_sha256_end (&sum, text);
  g_assert_cmpstr (text, ==, expected);
}

/* The examples of FIPS 180-4 (from memory): one block, and a length that makes a block of its own;
 * and no byte at all. */
static void
test_examples (void)
{
  const char *two = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
  assert_digest ("abc", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  assert_digest (two, strlen (two),
                 "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  assert_digest ("", 0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

/* Random bytes in random pieces, of all lengths round one and two blocks and some longer ones, have
 * the digest that GLib says. */
static void
test_pieces (void)
{
  guint8 bytes[4096];
  for (guint i = 0; i < sizeof bytes; i++)
    bytes[i] = (guint8)g_test_rand_int_range (0, 256);
  for (guint length = 0; length < 600; length++)
    {
      const gsize n = length < 300 ? length : (gsize)g_test_rand_int_range (300, sizeof bytes);
      TrnSha256 sum;
      char text[65];
      trn_sha256_start (&sum);
      for (gsize at = 0, more; at < n; at += more)
        {
          more = (gsize)g_test_rand_int_range (0, 200);
          more = MIN (more, n - at);
          trn_sha256_add (&sum, bytes + at, more);
        }
      trn_sha256_end (&sum, text);
      g_autofree char *expected = g_compute_checksum_for_data (G_CHECKSUM_SHA256, bytes, n);
      g_assert_cmpstr (text, ==, expected);
    }
}

/* One that is given up leaves nothing behind (the sanitizers look). */
static void
test_given_up (void)
{
  TrnSha256 sum;
  trn_sha256_start (&sum);
  trn_sha256_add (&sum, "abc", 3);
  trn_sha256_end (&sum, NULL);
  g_assert_null (sum.checksum);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/sha256/examples", test_examples);
  g_test_add_func ("/base/sha256/pieces", test_pieces);
  g_test_add_func ("/base/sha256/given-up", test_given_up);
  return g_test_run ();
}
