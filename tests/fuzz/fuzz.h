/* fuzz.h: a reader that is given any bytes whatever.
 *
 * Each target is one function in one file. Under clang with the option `fuzz` it is linked with
 * libFuzzer, which makes up the bytes (tools/fuzz); otherwise with replay.c, which hands it what
 * was found before, in every test run. It must return 0 and assert what has to hold. */
#pragma once

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);
