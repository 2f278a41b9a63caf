#pragma once
// For the programmer's own mistakes only; user input never reaches these.
#include <cstdio>
#include <cstdlib>

#define HW_CHECK(condition)                                                              \
  do {                                                                                   \
    if (!(condition)) {                                                                  \
      std::fprintf(stderr, "%s:%d: check failed: %s\n", __FILE__, __LINE__, #condition); \
      std::abort();                                                                      \
    }                                                                                    \
  } while (false)

// A loop that runs across members is compiled for several instruction sets; the result has the
// same bits on each, because kernels use only + - * / and sqrt and nothing is contracted.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__linux__) && \
    !defined(HW_ONE_TARGET) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define HW_KERNEL __attribute__((target_clones("default", "avx2", "avx512f")))
#else
#define HW_KERNEL
#endif
