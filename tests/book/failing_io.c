/* Preloaded into a child of the tests: after FAIL_AFTER writes or syncs, every further one fails
   with the error number FAIL_WITH, as a dying disk (EIO) or a full one (ENOSPC) would. With
   FAIL_LOCKS every lock on a file fails with that number, as on a drive that knows no locks. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdlib.h>
#include <sys/types.h>

static int fails(int fd) {
  static long left = -1;
  const char *text = getenv("FAIL_AFTER");
  if (fd < 3 || text == NULL) return 0;
  if (left < 0) left = atol(text);
  if (left > 0) { left--; return 0; }
  errno = atoi(getenv("FAIL_WITH"));
  return 1;
}

#define WRAP(type, name, params, args)                                  \
  type name params {                                                    \
    static type(*real) params;                                          \
    if (!real) real = (type(*) params)dlsym(RTLD_NEXT, #name);          \
    return fails(fd) ? (type)-1 : real args;                            \
  }

WRAP(ssize_t, pwrite64, (int fd, const void *b, size_t n, off64_t o), (fd, b, n, o))
WRAP(ssize_t, pwrite, (int fd, const void *b, size_t n, off_t o), (fd, b, n, o))
WRAP(int, fsync, (int fd), (fd))
WRAP(int, fdatasync, (int fd), (fd))

#define LOCKS(name)                                                     \
  int name(int fd, int cmd, ...) {                                      \
    static int(*real)(int, int, ...);                                   \
    va_list more;                                                       \
    va_start(more, cmd);                                                \
    void *arg = va_arg(more, void *);                                   \
    va_end(more);                                                       \
    if (!real) real = (int (*)(int, int, ...))dlsym(RTLD_NEXT, #name);  \
    const char *with = getenv("FAIL_LOCKS");                            \
    if (with != NULL && cmd == F_SETLK) {                               \
      errno = atoi(with);                                               \
      return -1;                                                        \
    }                                                                   \
    return real(fd, cmd, arg);                                          \
  }

LOCKS(fcntl)
LOCKS(fcntl64)
